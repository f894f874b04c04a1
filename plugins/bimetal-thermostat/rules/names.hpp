#pragma once

#include <cstdint>

namespace ohmwright::bimetal_thermostat {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t { contact_state, contact_state_swapped, link_state, voltage_drop };

enum ConditionIndex : std::uint16_t { part_temperature, load_current, ramp, lag };

enum StateIndex : std::uint16_t { history, terminals };
enum HistoryIndex : std::uint16_t { history_unknown, warming, cooling };
enum TerminalsIndex : std::uint16_t { terminals_unknown, terminals_cleaned };

/// Where between two readings it opened, and where it closed.
enum ErrorSourceIndex : std::uint16_t { opening_gap, closing_gap };

enum RuleIndex : std::uint16_t {
  state_at_temperature,
  opening_point,
  closing_point,
  differential,
  stuck,
  contact_resistance,
  drop_under_load,
  in_circuit,
  thermal_link,
  pair_suspected,
  matching_class,
};

enum AdviceIndex : std::uint16_t {
  lift_a_lead,
  prove_dead_and_swap,
  read_unplugged,
  state_temperature_too,
  chill_in_ice_water,
  chill_in_salted_ice,
  chill_in_freezer,
  warm_by_hand,
  warm_in_water,
  warm_on_bench,
  watch_it_open,
  watch_it_close,
  narrow_opening,
  narrow_closing,
  better_thermometer,
  more_cycles,
  order_of_readings,
  dry_it,
  clean_and_read_again,
  touch_the_probes,
  measure_drop,
  clamp_current,
  read_link,
  find_cause_of_link,
  check_both_of_pair,
  say_ratings,
  warm_well_past,
  watch_a_defrost,
  before_buying,
  before_buying_welded,
  before_buying_contact,
  replacement,
  replacement_with_current,
  replacement_by_stamp,
  replacement_link,
  it_switches,
  hold_and_tap,
  note_each_state,
  right_range,
  leave_it_in,
  no_load_test,
  read_both_at_once,
  unit_was_fahrenheit,
  unit_was_celsius,
};

}  // namespace ohmwright::bimetal_thermostat
