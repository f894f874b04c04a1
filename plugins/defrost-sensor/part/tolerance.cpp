#include "part/tolerance.hpp"

#include <algorithm>
#include <cmath>

namespace ohmwright::defrost_sensor {

namespace {

/// The part may read as its curve does `half_width` warmer or colder.
LogLimits shifted(const Curve& curve, Temperature t, TemperatureDifference half_width) {
  const TemperatureSpan domain = curve.domain();
  const double here = curve.log_resistance(t);
  const double colder = curve.log_resistance(std::max(t - half_width, domain.from)) - here;
  const double warmer = curve.log_resistance(std::min(t + half_width, domain.to)) - here;
  return {std::min(colder, warmer), std::max(colder, warmer)};
}

struct AtTemperature {
  const Curve& curve;
  Temperature t;

  LogLimits operator()(const ReferenceAndSlope& form) const {
    const double from_slope = form.slope * std::abs(curve.log_resistance(t) - curve.log_resistance(form.at));
    return {std::log1p(-form.reference) - from_slope, std::log1p(form.reference) + from_slope};
  }
  LogLimits operator()(const OfResistance& form) const {
    return {std::log1p(-form.relative), std::log1p(form.relative)};
  }
  LogLimits operator()(const OfTemperature& form) const { return shifted(curve, t, form.half_width); }
  LogLimits operator()(const OfClass& form) const { return shifted(curve, t, class_tolerance(form.platinum_class, t)); }
};

}  // namespace

LogLimits Tolerance::at(const Curve& curve, Temperature t) const { return std::visit(AtTemperature{curve, t}, form_); }

LogLimits Tolerance::of_difference(const Curve& curve, Temperature first, Temperature second) const {
  if (const auto* form = std::get_if<ReferenceAndSlope>(&form_)) {
    const double from_slope = form->slope * std::abs(curve.log_resistance(first) - curve.log_resistance(second));
    return {-from_slope, from_slope};
  }
  const LogLimits a = at(curve, first);
  const LogLimits b = at(curve, second);
  return {a.lower - b.upper, a.upper - b.lower};
}

}  // namespace ohmwright::defrost_sensor
