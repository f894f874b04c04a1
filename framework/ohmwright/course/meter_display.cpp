#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <ohmwright/course/meter_display.hpp>

namespace ohmwright::course {

namespace {

struct Prefix {
  double factor;
  const char* unit;
};

/// The unit in which a range of that full scale is shown.
Prefix prefix_of(const MeterRange& range, Dimension dimension) {
  const double end = range.full_scale.value_in_si();
  if (dimension == Dimension::voltage) return end < 1.0 ? Prefix{1e-3, "mV"} : Prefix{1.0, "V"};
  if (dimension == Dimension::current)
    return end < 1e-3 ? Prefix{1e-6, "uA"} : end < 1.0 ? Prefix{1e-3, "mA"} : Prefix{1.0, "A"};
  return end < 1e3 ? Prefix{1.0, "ohm"} : end < 1e6 ? Prefix{1e3, "kohm"} : Prefix{1e6, "Mohm"};
}

}  // namespace

std::string range_name(const MeterRange& range, Dimension dimension) {
  const Prefix prefix = prefix_of(range, dimension);
  return fmt::format("{:g} {}", range.full_scale.value_in_si() / prefix.factor, prefix.unit);
}

std::vector<std::string> range_names(const Meter& meter, Dimension dimension) {
  std::vector<std::string> names;
  if (const MeterFunction* function = function_for(meter, dimension))
    for (const MeterRange& range : function->ranges) names.push_back(range_name(range, dimension));
  return names;
}

std::string shown_on(const Meter& meter, Dimension dimension, const std::string& range, std::optional<double> value) {
  const MeterFunction* function = function_for(meter, dimension);
  if (!value || function == nullptr) return "OL";
  const bool takes_its_own = range == "auto" || range.empty();
  // A clamp or a voltmeter that would have to reach further shows it on its last range (`DrawnMeter`).
  const MeterRange* on = takes_its_own ? range_for(*function, {}, AnyQuantity(dimension, *value)) : nullptr;
  if (takes_its_own && on == nullptr) on = &function->ranges.back();
  for (const MeterRange& one : function->ranges)
    if (range_name(one, dimension) == range) on = &one;
  if (on == nullptr || (!takes_its_own && *value > on->full_scale.value_in_si())) return "OL";
  const Prefix prefix = prefix_of(*on, dimension);
  const double resolution = on->resolution.value_in_si();
  const double counts = std::round(*value / resolution);
  const int decimals = std::max(0, static_cast<int>(std::ceil(-std::log10(resolution / prefix.factor) - 1e-9)));
  return fmt::format("{:.{}f} {}", counts * resolution / prefix.factor, decimals, prefix.unit);
}

}  // namespace ohmwright::course
