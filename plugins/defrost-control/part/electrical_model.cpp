#include "part/electrical_model.hpp"

#include <ohmwright/component/fault_extents.hpp>

#include "part/motor.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

// How far faults go, and what lies between terminals where no sheet says it; assumed, no source [ohm].
constexpr double bad_contact_from_ohms = 0.5;
constexpr double any_motor_from_ohms = 500.0;
constexpr double any_motor_to_ohms = 100e3;
constexpr double transformer_from_ohms = 50.0;
constexpr double transformer_to_ohms = 5e3;
constexpr double sensor_input_from_ohms = 1e3;
constexpr double sensor_input_to_ohms = 200e3;

/// Shares of controls in which each contact is closed [0…1].
struct Closed {
  double defrost = 0.0;
  double run = 0.0;
};

bool is_of_timers_only(std::uint16_t fault_mode) {
  return fault_mode == fault_motor_open || fault_mode == fault_stuck_in_run || fault_mode == fault_does_not_move_on;
}

bool applies(const ControlRatings& ratings, std::uint16_t fault_mode) {
  if (is_of_timers_only(fault_mode)) return ratings.is_timer();
  if (fault_mode == fault_no_output) return !ratings.is_timer();
  return fault_mode != fault_sensor_input_dead || ratings.type == ControlType::thermistor_board;
}

/// Contacts of a good control.
Closed good(const ControlRatings& ratings, const Situation& situation) {
  if (!ratings.is_timer() && situation.excitation == Excitation::ohmmeter) {
    const double unknown = 0.5;
    return {0.0, ratings.run_closed_at_rest ? (*ratings.run_closed_at_rest ? 1.0 : 0.0) : unknown};
  }
  const double defrost = share_in_defrost(situation);
  return {defrost, 1.0 - defrost};
}

Closed with_fault(Closed closed, std::uint16_t fault_mode, bool timer) {
  switch (fault_mode) {
    case fault_stuck_in_run:
      return {0.0, 1.0};
    case fault_stuck_in_defrost:  // a welded relay leaves the other contact as it is
      return timer ? Closed{1.0, 0.0} : Closed{1.0, closed.run};
    case fault_defrost_contact_open:
    case fault_no_output:
      return {0.0, closed.run};
    case fault_run_contact_welded:
      return {closed.defrost, 1.0};
    default:
      return closed;
  }
}

Element contact(const ControlRatings& ratings, std::uint16_t to, double share, std::uint16_t fault_mode) {
  if (share <= 0.0) return open_between(terminal_line, to);
  if (fault_mode == fault_bad_contact)
    return contact_between(terminal_line, to, bad_contact_from_ohms, fault_extents::bad_joint_to, share);
  if (fault_mode == fault_burnt_contact)
    return contact_between(terminal_line, to, fault_extents::burnt_joint_from, fault_extents::burnt_joint_to, share);
  return contact_between(terminal_line, to, least_contact_ohms, ratings.contact_resistance.value(), share);
}

Element motor_between(const ControlRatings& ratings, const Situation& situation) {
  if (!ratings.motor.is_stated())
    return resistance_between(terminal_line, terminal_neutral, any_motor_from_ohms, any_motor_to_ohms);
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const double factor = kelvin ? copper_factor(ratings.motor_temperature, Temperature::from_kelvin(*kelvin)) : 1.0;
  return resistance_between(terminal_line, terminal_neutral, factor * ratings.motor.least->value(),
                            factor * ratings.motor.most->value());
}

Element power_supply_between(const ControlRatings& ratings) {
  if (ratings.power_supply == PowerSupply::transformer)
    return resistance_between(terminal_line, terminal_neutral, transformer_from_ohms, transformer_to_ohms);
  return open_between(terminal_line, terminal_neutral);
}

/// Unpowered, the board's own resistor and its discharged rail lie between the pins.
Element sensor_input_between(const ControlRatings& ratings, std::uint16_t fault_mode) {
  if (ratings.type != ControlType::thermistor_board || fault_mode == fault_sensor_input_dead)
    return open_between(terminal_sensor_1, terminal_sensor_2);
  return resistance_between(terminal_sensor_1, terminal_sensor_2, sensor_input_from_ohms, sensor_input_to_ohms);
}

}  // namespace

double share_in_defrost(const Situation& situation) {
  const std::optional<std::uint16_t> stated = situation.state(position);
  if (!stated) return 1.0 - usual_run_share;
  return *stated == position_defrost ? 1.0 : 0.0;
}

ModelAnswer append_model(const ControlRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  if (ratings == nullptr) return ModelAnswer::unknown;
  if (!applies(*ratings, fault_mode)) return ModelAnswer::not_applicable;
  const bool timer = ratings->is_timer();
  const Closed closed = with_fault(good(*ratings, situation), fault_mode, timer);
  elements.push_back(contact(*ratings, terminal_defrost, closed.defrost, fault_mode));
  elements.push_back(contact(*ratings, terminal_run, closed.run, not_found));
  if (!timer)
    elements.push_back(power_supply_between(*ratings));
  else if (fault_mode == fault_motor_open)
    elements.push_back(open_between(terminal_line, terminal_neutral));
  else
    elements.push_back(motor_between(*ratings, situation));
  elements.push_back(sensor_input_between(*ratings, fault_mode));
  return ModelAnswer::stated;
}

}  // namespace ohmwright::defrost_control
