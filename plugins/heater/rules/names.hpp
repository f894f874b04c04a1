#pragma once

#include <cstdint>

namespace ohmwright::heater {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t {
  resistance,
  resistance_swapped,
  current,
  power,
  terminal_voltage,
  insulation_resistance,
};

enum ConditionIndex : std::uint16_t { part_temperature, line_voltage, test_voltage };

enum TerminalIndex : std::uint16_t { lead_1, lead_2, frame };

enum FaultModeIndex : std::uint16_t {
  fault_open,
  fault_opens_hot,
  fault_shorted_turns,
  fault_one_of_two,
  fault_bad_joint,
  fault_leaks,
  fault_short,
  fault_intermittent,
  fault_burnt_joint,
  fault_leaks_in_the_middle,
  fault_leaks_at_the_other_end,
};

enum RuleIndex : std::uint16_t {
  element_resistance,
  open_element,
  short_element,
  in_circuit,
  power_under_load,
  supply_without_current,
  insulation,
  matching_class,
};

enum AdviceIndex : std::uint16_t {
  lift_a_lead,
  prove_dead_and_swap,
  read_unplugged,
  read_cold,
  higher_range,
  touch_the_probes,
  firm_probes,
  better_meter,
  let_it_cool,
  read_both_again,
  clamp_under_load,
  say_line_voltage,
  volts_at_element,
  volts_and_amperes_at_element,
  clamp_with_volts,
  clamp_alone,
  find_the_volts,
  look_upstream,
  insulation_tester,
  frame_too,
  dry_and_repeat,
  do_not_energise,
  say_ratings,
  opens_when_hot,
  before_buying,
  before_buying_power,
  replacement,
  replacement_by_plate,
  look_upstream_first,
  leakage_test,
  misread_decimal,
  switch_off_now,
  both_leads_off,
  test_once_more,
  then_volts_at_element,
  then_volts_and_amperes,
  seal_its_ends,
  before_buying_watts,
  say_if_it_was_wet,
  wet_with_more_volts,
  leave_out_stale_volts,
  in_place_of_leads_on,
  find_the_joint,
};

}  // namespace ohmwright::heater
