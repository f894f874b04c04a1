#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright::locate {

namespace {

constexpr double beyond_rounding = 1.0 + 1e-9;

/// The ranges that a probe reads on; none of a meter whose file does not say.
const MeterFunction* ranges_of(const Meter& meter, Probe probe) {
  const MeterFunction* function = function_for(meter, dimension_of(probe));
  return function != nullptr && !function->ranges.empty() ? function : nullptr;
}

}  // namespace

OverRangeLimit over_range_limit(const Meter& meter, const std::optional<AnyQuantity>& set_range) {
  if (set_range) return {set_range->value_in_si(), true};
  const MeterFunction* function = ranges_of(meter, Probe::ohms);
  if (function == nullptr) return {0.0, false};
  const MeterRange& range = meter.sets_range_itself ? function->ranges.back() : function->ranges.front();
  return {range.full_scale.value_in_si(), meter.sets_range_itself};
}

std::optional<AnyQuantity> range_told_by(const OverRange& over, const Meter& meter) {
  if (over.more_than) return over.more_than;
  const MeterFunction* function = ranges_of(meter, Probe::ohms);
  if (!over.unit || function == nullptr) return std::nullopt;
  const double first_not_shown = 1000.0 * over.unit->to_si(1.0);
  std::optional<AnyQuantity> told;
  for (const MeterRange& range : function->ranges)
    if (range.full_scale.value_in_si() < first_not_shown) told = range.full_scale;
  return told;
}

bool is_of_unknown_range(const TakenReading& reading, Probe probe, const Meter& meter) {
  return probe == Probe::ohms && !reading.any_of && std::holds_alternative<OverRange>(reading.observed) &&
         !over_range_limit(meter, reading.range).is_known;
}

double uncertainty_of_range(const Meter& meter, Probe probe, double value_in_si,
                            const std::optional<AnyQuantity>& set_range) {
  const MeterFunction* function = ranges_of(meter, probe);
  if (!set_range || function == nullptr) return 0.0;
  const AnyQuantity value(dimension_of(probe), value_in_si);
  const MeterRange* set = range_for(*function, set_range, value);
  const MeterRange* smallest = range_for(*function, {}, value);
  if (set == nullptr || smallest == nullptr) return 0.0;
  const double of_set = accuracy_half_width(*set, value_in_si);
  const double of_smallest = accuracy_half_width(*smallest, value_in_si);
  return std::sqrt(std::max(0.0, of_set * of_set - of_smallest * of_smallest)) / std::numbers::sqrt3;
}

double uncertainty_of_repeat(const Meter& meter, Probe probe, double value_in_si) {
  const MeterFunction* function = ranges_of(meter, probe);
  const MeterRange* range =
      function != nullptr ? range_for(*function, {}, AnyQuantity(dimension_of(probe), value_in_si)) : nullptr;
  const double last_digit = range != nullptr ? range->resolution.value_in_si() : 0.0;
  return std::hypot(last_digit, probe == Probe::ohms ? probe_contact_ohm : 0.0) / std::numbers::sqrt3;
}

void refuse_impossible_range(const TakenReading& reading, Probe probe, const Meter& meter, const std::string& label) {
  if (!reading.range) return;
  const MeterFunction* function = ranges_of(meter, probe);
  const double set = reading.range->value_in_si();
  if (!(set > 0.0)) throw InputError(label + ": a range is more than 0, such as \"20 kohm\"");
  if (function != nullptr && set > function->ranges.back().full_scale.value_in_si() * beyond_rounding)
    throw InputError(label + ": the meter \"" + meter.name + "\" has no range of " + display_text(*reading.range) +
                     "; its largest is " + display_text(function->ranges.back().full_scale));
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  if (stated != nullptr && std::abs(stated->value.value_in_si()) > set * beyond_rounding)
    throw InputError(label + ": " + exact_text(stated->value) + " cannot be shown on a range of " +
                     exact_text(*reading.range) + "; name the range that was set, or write what the meter showed (OL)");
}

}  // namespace ohmwright::locate
