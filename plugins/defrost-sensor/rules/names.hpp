#pragma once

#include <cstdint>

namespace ohmwright::defrost_sensor {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t { resistance, resistance_swapped, twin_resistance, voltage };

enum ConditionIndex : std::uint16_t { part_temperature, coil_temperature };

enum RuleIndex : std::uint16_t {
  resistance_at_temperature,
  open_sensor,
  short_sensor,
  in_circuit,
  two_temperatures,
  readings_agree,
  steady_readings,
  moisture_leakage,
  seated_on_coil,
  end_of_defrost,
  volts_at_board,
  matching_class,
  twin_comparison,
};

enum AdviceIndex : std::uint16_t {
  ice_point,
  better_meter,
  higher_range,
  lift_a_lead,
  prove_dead_and_swap,
  dry_it,
  state_temperature,
  chart_of_the_part,
  compare_twin,
  second_temperature,
  wait_until_steady,
  read_again,
  seat_it_again,
  read_unplugged,
  move_the_lead,
  read_at_the_sensor,
  replace_alike,
  look_elsewhere,
  room_point,
  touch_the_probes,
  joint_first,
  right_class,
  find_the_sheet,
  wet_connector,
  say_for_all,
  second_temperature_room,
  stop_at_mains,
  read_more_carefully,
  misread_decimal,
  say_ice_doubt,
  right_class_here,
  look_elsewhere_no_leak,
  find_the_sheet_only,
  wet_and_dry_again,
  lowest_range,
  unit_was_fahrenheit,
  unit_was_celsius,
  let_it_settle,
  clips_touch,
  twins_in_ice_water,
  name_the_control,
};

}  // namespace ohmwright::defrost_sensor
