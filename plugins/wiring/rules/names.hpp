#pragma once

#include <cstdint>

namespace ohmwright::wiring {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t { resistance, resistance_swapped, drop, insulation_resistance };

/// The load comes first: "drop=40mV@3.75A" is how such a reading is typed.
enum ConditionIndex : std::uint16_t { load_current, part_temperature, test_voltage, lead_length };

enum StateIndex : std::uint16_t { probes };

enum ProbesValue : std::uint16_t { probes_held, probes_clipped };

enum TerminalIndex : std::uint16_t { end_1, end_2, frame };

enum OwnErrorIndex : std::uint16_t { unstated_temperature };

enum FaultModeIndex : std::uint16_t {
  fault_open,
  fault_high_resistance,
  fault_intermittent,
  fault_leaks,
  fault_burnt_joint,
};

enum RuleIndex : std::uint16_t {
  end_to_end,
  open_lead,
  drop_under_load,
  insulation,
  intermittent,
  in_circuit,
  load_rating,
};

enum AdviceIndex : std::uint16_t {
  lift_an_end,
  prove_dead_and_swap,
  read_unplugged,
  read_something,
  higher_range,
  touch_the_probes,
  clip_and_move,
  read_drop,
  known_current,
  say_load,
  say_length,
  say_ratings,
  read_both_again,
  read_all_of_it,
  say_leads,
  low_impedance,
  what_draws,
  insulation_tester,
  dry_and_repeat,
  do_not_energise,
  mend_open,
  mend_joint,
  mend_leak,
  replacement,
  replacement_by_look,
};

}  // namespace ohmwright::wiring
