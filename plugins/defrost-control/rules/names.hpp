#pragma once

#include <cstdint>

namespace ohmwright::defrost_control {

// Places in the lists of the descriptor (descriptor/): the lists are written in this order.

enum MeasurandIndex : std::uint16_t {
  motor,
  defrost_contact,
  run_contact,
  output_voltage,
  voltage_drop,
  sensor_voltage,
  advance_time,
  interval_time,
  interval_by_clock,
};

enum ConditionIndex : std::uint16_t { part_temperature, line_voltage, load_current, frequency, run_share, stand_in };

enum StateIndex : std::uint16_t { position, moved };
enum PositionIndex : std::uint16_t { position_run, position_defrost };
enum MovedIndex : std::uint16_t { moved_on, stood_still, shaft_stood_still };

enum ErrorSourceIndex : std::uint16_t { motor_temperature_source };

enum TerminalIndex : std::uint16_t {
  terminal_line,
  terminal_neutral,
  terminal_defrost,
  terminal_run,
  terminal_sensor_1,
  terminal_sensor_2,
};

enum FaultModeIndex : std::uint16_t {
  fault_motor_open,
  fault_stuck_in_run,
  fault_stuck_in_defrost,
  fault_defrost_contact_open,
  fault_run_contact_welded,
  fault_bad_contact,
  fault_no_output,
  fault_sensor_input_dead,
  fault_burnt_contact,
  fault_does_not_move_on,
};

enum RuleIndex : std::uint16_t {
  contacts,
  advance,
  motor_winding,
  contact_drop,
  output,
  interval,
  sensor_supply,
  in_circuit,
};

enum AdviceIndex : std::uint16_t {
  lift_a_lead,
  read_contacts,
  read_other_position,
  say_position,
  clean_and_read_again,
  prove_dead,
  read_unplugged,
  read_motor,
  higher_range,
  motor_temperature,
  watch_it_move,
  watch_longer,
  say_frequency,
  count_run_time,
  say_limits,
  measure_output,
  output_under_load,
  output_in_run,
  say_line_voltage,
  measure_drop,
  clamp_current,
  read_sensor_supply,
  say_pull_up,
  find_why_it_stands,
  find_what_welded,
  before_buying_timer,
  before_buying_board,
  before_buying_contact,
  before_buying_input,
  before_buying_interval,
  replacement_timer,
  replacement_board,
  misread_decimal,
  say_ratings,
  take_off_leads,
  right_range,
  touch_the_probes,
  watch_the_shaft,
};

}  // namespace ohmwright::defrost_control
