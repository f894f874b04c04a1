#include "part/fan_motor_ratings.hpp"

#include <numbers>

#include <ohmwright/component/rated_figures.hpp>

namespace ohmwright::fan_motor {

namespace {

constexpr double most_slip_of_shaded_pole = 0.20;
constexpr double most_slip_of_capacitor_run = 0.10;

Construction construction_named(std::string_view name) {
  if (name == "capacitor-run") return Construction::capacitor_run;
  return name == "electronically-commutated" ? Construction::electronically_commutated : Construction::shaded_pole;
}

Rotation rotation_named(std::string_view name) {
  if (name == "clockwise") return Rotation::clockwise;
  return name == "counter-clockwise" ? Rotation::counter_clockwise : Rotation::unstated;
}

void read_winding(const ValueNode& ratings, RatedFigures& figures, FanMotorRatings& read) {
  read.winding = figures.positive<Resistance>(ratings, "winding");
  if (const auto tolerance = figures.tolerance(ratings, "winding_tolerance")) read.winding_tolerance = *tolerance;
  if (const auto at = figures.figure<Temperature>(ratings, "reference_temperature")) read.reference_temperature = *at;
  if (RatedFigures::word(ratings, "conductor") == "aluminium") read.conductor_constant = constant_of_aluminium;
  if (const ValueNode* node = ratings.find("conductor_constant"); node != nullptr && node->number() != nullptr)
    read.conductor_constant = *node->number();
  if (read.winding && read.winding_tolerance == 0.0)
    figures.refuse(ratings, "winding", "say how far good windings may be off: \"winding_tolerance\"");
  if (read.winding && read.is_electronic())
    figures.refuse(ratings, "winding",
                   "an electronically commutated motor is never judged by ohms: its leads end in semiconductors");
}

void read_running(const ValueNode& ratings, RatedFigures& figures, FanMotorRatings& read) {
  read.current = figures.positive<Current>(ratings, "current");
  if (const auto tolerance = figures.tolerance(ratings, "current_tolerance")) read.current_tolerance = *tolerance;
  read.speed = figures.positive<RotationalSpeed>(ratings, "speed");
  if (const auto tolerance = figures.tolerance(ratings, "speed_tolerance")) read.speed_tolerance = *tolerance;
  read.pulses_per_turn = RatedFigures::whole_number(ratings, "pulses_per_turn");
  read.wires = RatedFigures::whole_number(ratings, "wires");
  if (const auto retry = figures.positive<Duration>(ratings, "retry")) read.retry = *retry;
  if (read.poles && *read.poles % 2 != 0) figures.refuse(*ratings.find("poles"), "poles come in pairs: 2, 4, 6, 8");
  const auto synchronous = read.synchronous();
  if (synchronous && read.speed && *read.speed > *synchronous)
    figures.refuse(ratings, "speed", "faster than its poles and frequency allow (120 f/p); one of the three is wrong");
}

}  // namespace

double winding_factor(double conductor_constant, Temperature from, Temperature to) {
  return (conductor_constant + to.celsius()) / (conductor_constant + from.celsius());
}

RotationalSpeed synchronous_speed(Frequency frequency, int poles) {
  return RotationalSpeed::from_value(4.0 * std::numbers::pi * frequency.value() / poles);
}

std::optional<RotationalSpeed> FanMotorRatings::synchronous() const {
  if (!frequency || !poles || is_electronic()) return std::nullopt;
  return synchronous_speed(*frequency, *poles);
}

std::optional<Span> FanMotorRatings::speed_limits() const {
  if (speed) return Span{speed->value() * (1.0 - speed_tolerance), speed->value() * (1.0 + speed_tolerance)};
  const auto fastest = synchronous();
  if (!fastest) return std::nullopt;
  const double slip = construction == Construction::shaded_pole ? most_slip_of_shaded_pole : most_slip_of_capacitor_run;
  return Span{fastest->value() * (1.0 - slip), fastest->value()};
}

std::optional<Span> FanMotorRatings::winding_limits() const {
  if (!winding) return std::nullopt;
  return Span{winding->value() * (1.0 - winding_tolerance), winding->value() * (1.0 + winding_tolerance)};
}

std::optional<FanMotorRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  RatedFigures figures(problems);
  FanMotorRatings read;
  read.construction = construction_named(RatedFigures::word(ratings, "construction"));
  read.voltage = figures.positive<Voltage>(ratings, "voltage");
  read.frequency = figures.positive<Frequency>(ratings, "frequency");
  read.poles = RatedFigures::whole_number(ratings, "poles");
  read.rotation = rotation_named(RatedFigures::word(ratings, "rotation"));
  read.size = figures.positive<Length>(ratings, "size");
  read.earth_class = earth_class_named(RatedFigures::word(ratings, "earth_class"));
  read.insulation = figures.positive<Resistance>(ratings, "insulation").value_or(least_insulation(read.earth_class));
  read.capacitance = figures.positive<Capacitance>(ratings, "capacitance");
  if (const auto share = figures.tolerance(ratings, "capacitance_tolerance")) read.capacitance_tolerance = *share;
  read_winding(ratings, figures, read);
  read_running(ratings, figures, read);
  if (problems.size() != before) return std::nullopt;
  return read;
}

}  // namespace ohmwright::fan_motor
