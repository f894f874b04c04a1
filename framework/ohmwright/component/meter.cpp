#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

const MeterFunction* function_for(const Meter& meter, Dimension dimension, bool tests_insulation) {
  const auto found = std::find_if(meter.functions.begin(), meter.functions.end(), [&](const MeterFunction& function) {
    return function.dimension == dimension && function.tests_insulation == tests_insulation;
  });
  return found == meter.functions.end() ? nullptr : &*found;
}

const MeterRange* range_for(const MeterFunction& function, std::optional<AnyQuantity> set_range, AnyQuantity value) {
  const double shown = set_range ? set_range->value_in_si() : std::abs(value.value_in_si());
  const auto found = std::find_if(function.ranges.begin(), function.ranges.end(), [&](const MeterRange& range) {
    return shown <= range.full_scale.value_in_si() * (1.0 + 1e-9);
  });
  return found == function.ranges.end() ? nullptr : &*found;
}

double accuracy_half_width(const MeterRange& range, double value_in_si) {
  return range.percent_of_reading / 100.0 * std::abs(value_in_si) + range.counts * range.resolution.value_in_si();
}

bool states_test_voltage(const Reading& reading) {
  return std::any_of(reading.conditions.begin(), reading.conditions.end(),
                     [](const Condition& condition) { return condition.id == test_voltage_condition; });
}

MeterSet::MeterSet(std::vector<Meter> meters) : meters_(std::move(meters)) {
  if (meters_.empty()) throw Error(ErrorCategory::internal, "a meter set needs at least one meter");
}

const Meter& MeterSet::named(const std::string& name) const {
  if (name.empty()) return meters_.front();
  for (const Meter& meter : meters_)
    if (meter.name == name) return meter;
  std::string known;
  for (const Meter& meter : meters_) known += (known.empty() ? "" : ", ") + meter.name;
  throw InputError("no meter is called \"" + name + "\"; known meters: " + known);
}

}  // namespace ohmwright
