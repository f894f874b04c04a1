#pragma once

#include <cstdint>

namespace ohmwright::fan_motor {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t {
  winding,
  winding_swapped,
  common_run,
  common_start,
  start_run,
  current,
  speed,
  tach,
  supply,
  insulation_resistance,
  capacitance,
  capacitor_current,
};

enum ConditionIndex : std::uint16_t { part_temperature, watched, test_voltage, capacitor_voltage, frequency, coast };

enum StateIndex : std::uint16_t { signal, air, wheel };
enum SignalIndex : std::uint16_t { signal_not_known, signal_says_run, signal_says_stop };
enum AirIndex : std::uint16_t { air_not_seen, air_clear };
enum WheelIndex : std::uint16_t { wheel_not_seen, wheel_turns };

enum TerminalIndex : std::uint16_t { lead_1, lead_2, start_lead, frame };

enum FaultModeIndex : std::uint16_t {
  fault_open,
  fault_shorted_turns,
  fault_seized,
  fault_blocked_by_ice,
  fault_worn_bearing,
  fault_weak_capacitor,
  fault_dead_electronics,
  fault_leaks,
  fault_bad_joint,
  fault_burnt_joint,
};

enum RuleIndex : std::uint16_t {
  running,
  winding_resistance,
  open_winding,
  short_winding,
  in_circuit,
  windings_add_up,
  not_by_ohms,
  line_current,
  fed_but_still,
  turns_by_hand,
  capacitor,
  insulation,
  matching_class,
  supply_volts,
};

enum AdviceIndex : std::uint16_t {
  lift_a_lead,
  prove_dead_and_swap,
  read_unplugged,
  firm_probes,
  touch_the_probes,
  higher_range,
  winding_temperature,
  better_thermometer,
  run_it,
  clamp_it,
  volts_at_plug,
  spin_by_hand,
  supply_then_tach,
  watch_a_retry,
  look_upstream,
  thaw_first,
  cool_down,
  say_frequency,
  better_clamp,
  insulation_tester,
  frame_too,
  no_test_of_electronics,
  dry_and_repeat,
  do_not_energise,
  fit_capacitor,
  say_ratings,
  before_buying,
  replacement,
  discharge_first,
  see_it_turn,
  look_at_tachometer,
  volts_while_still,
  misread_decimal,
  cut_the_supply,
  unplug_it_now,
  read_pulsed_supply,
  volts_plugged_in,
  read_speed_again,
  test_once_more,
  leave_it_in,
  read_the_signal,
  may_be_warm,
  cool_and_start,
  swap_the_probes,
  clear_its_air,
  see_it_run_since,
  seal_or_renew,
  cool_before_buying,
  feed_it_alone,
  say_if_it_was_wet,
  wet_with_more_volts,
  leave_out_stale_volts,
  find_the_high_volts,
  read_its_capacitor,
  in_place_of_leads_on,
  dry_electronics,
  wet_electronics,
  at_its_frequency,
  name_its_terminals,
  capacitor_past_range,
};

}  // namespace ohmwright::fan_motor
