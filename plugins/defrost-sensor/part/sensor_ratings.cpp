#include "part/sensor_ratings.hpp"

#include "part/curve_reader.hpp"
#include "part/figures.hpp"

namespace ohmwright::defrost_sensor {

namespace {

std::optional<Tolerance> read_tolerance(const ValueNode& ratings, const ReadCurve& curve, Figures& figures) {
  const ValueNode* node = ratings.find("tolerance");
  if (node == nullptr) {
    if (curve.platinum_class) return Tolerance(OfClass{*curve.platinum_class});
    figures.refuse(ratings,
                   "a tolerance is missing: how far may a good part be off? Write \"tolerance\": {\"resistance\": "
                   "\"5 %\"}, with its source");
    return std::nullopt;
  }
  if (const auto relative = figures.tolerance(*node, "resistance")) return Tolerance(OfResistance{*relative});
  if (const auto kelvin = figures.difference(*node, "temperature")) {
    if (kelvin->value() > 0.0) return Tolerance(OfTemperature{*kelvin});
    figures.refuse(*node, "a tolerance in kelvin must be above 0 K");
    return std::nullopt;
  }
  const std::optional<double> reference = figures.tolerance(*node, "reference");
  if (!reference) return std::nullopt;
  ReferenceAndSlope form{*reference, 0.0, curve.reference_temperature};
  if (const auto at = figures.temperature(*node, "at")) form.at = *at;
  if (node->find("slope") != nullptr) {
    const std::optional<double> slope = figures.tolerance(*node, "slope");
    if (!slope) return std::nullopt;
    form.slope = *slope;
  }
  if (!curve.curve->domain().contains(form.at)) {
    figures.refuse(*node, "the temperature of the tolerance lies outside the curve; check the unit");
    return std::nullopt;
  }
  return Tolerance(form);
}

std::optional<Control> read_control(const ValueNode& node, const Curve& own, Figures& figures) {
  const std::optional<Resistance> pull_up = figures.resistance(node, "pull_up");
  if (!pull_up) return std::nullopt;
  Control control;
  control.pull_up = *pull_up;
  if (!(pull_up->value() > 0.0)) figures.refuse(*node.find("pull_up"), "a pull-up must be above 0 ohm");
  control.reference_voltage = figures.voltage(node, "reference_voltage");
  if (const auto bits = figures.number(node, "bits")) control.bits = static_cast<int>(*bits);
  if (figures.word(node, "sensor_to") == "supply") control.sensor_to = Control::SensorTo::supply;
  control.termination_temperature = figures.temperature(node, "termination_temperature");
  control.termination_tolerance = figures.difference(node, "termination_tolerance");
  if (const ValueNode* curve = node.find("curve")) {
    const std::optional<ReadCurve> read = read_curve(*curve, figures);
    if (read) control.curve = read->curve;
  }
  const Curve& expected = control.curve ? *control.curve : own;
  if (control.termination_temperature && !expected.domain().contains(*control.termination_temperature))
    figures.refuse(*node.find("termination_temperature"), "the curve does not reach this temperature; check the unit");
  return control;
}

std::optional<double> read_dissipation(const ValueNode& ratings, Figures& figures) {
  const ValueNode* node = ratings.find("self_heating");
  if (node == nullptr) return std::nullopt;
  const std::optional<Power> power = figures.power(*node, "power");
  const std::optional<TemperatureDifference> rise = figures.difference(*node, "rise");
  if (!power || !rise) return std::nullopt;
  if (power->value() > 0.0 && rise->value() > 0.0) return power->value() / rise->value();
  figures.refuse(*node, "power and rise must both be above 0");
  return std::nullopt;
}

}  // namespace

std::optional<SensorRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  Figures figures(problems);
  const ValueNode* curve_node = ratings.find("curve");
  if (curve_node == nullptr) {
    figures.refuse(ratings, "the curve is missing");
    return std::nullopt;
  }
  const std::optional<ReadCurve> curve = read_curve(*curve_node, figures);
  if (!curve) {
    if (problems.size() == before) figures.refuse(*curve_node, "the curve is not complete");
    return std::nullopt;
  }
  const std::optional<Tolerance> tolerance = read_tolerance(ratings, *curve, figures);
  std::optional<Control> control;
  if (const ValueNode* node = ratings.find("control")) control = read_control(*node, *curve->curve, figures);
  const std::optional<double> dissipation = read_dissipation(ratings, figures);
  if (problems.size() != before || !tolerance) return std::nullopt;
  return SensorRatings{curve->curve, *tolerance, control, dissipation};
}

}  // namespace ohmwright::defrost_sensor
