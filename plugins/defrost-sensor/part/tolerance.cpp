#include "part/tolerance.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

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

struct RelativePart {
  LogLimits operator()(const ReferenceAndSlope& form) const { return log_limits_of(form.reference); }
  LogLimits operator()(const OfResistance& form) const { return log_limits_of(form.relative); }
  LogLimits operator()(const OfTemperature&) const { return {}; }
  LogLimits operator()(const OfClass&) const { return {}; }
};

struct AtTemperature {
  const Curve& curve;
  Temperature t;
  const LogLimits& relative;

  LogLimits operator()(const ReferenceAndSlope& form) const {
    const double from_slope = form.slope * std::abs(curve.log_resistance(t) - curve.log_resistance(form.at));
    return {relative.lower - from_slope, relative.upper + from_slope};
  }
  LogLimits operator()(const OfResistance&) const { return relative; }
  LogLimits operator()(const OfTemperature& form) const { return shifted(curve, t, form.half_width); }
  LogLimits operator()(const OfClass& form) const { return shifted(curve, t, class_tolerance(form.platinum_class, t)); }
};

}  // namespace

LogLimits log_limits_of(double relative) { return {std::log1p(-relative), std::log1p(relative)}; }

Tolerance::Tolerance(Form form) : form_(std::move(form)), relative_(std::visit(RelativePart{}, form_)) {}

LogLimits Tolerance::at(const Curve& curve, Temperature t) const {
  return std::visit(AtTemperature{curve, t, relative_}, form_);
}

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
