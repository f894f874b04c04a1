#include <optional>
#include <utility>
#include <variant>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/no_leak.hpp>
#include <ohmwright/locate/reading_range.hpp>

namespace ohmwright::locate {

namespace {

/// The same reading, had the meter shown that.
TakenReading had_it_shown(const TakenReading& reading, Observed observed) {
  TakenReading other = reading;
  other.observed = std::move(observed);
  other.any_of.reset();
  return other;
}

}  // namespace

bool shows_no_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  const bool is_over_insulation = tells_of_leak(appliance, had_it_shown(reading, ContactState::closed), meter);
  if (!is_over_insulation || tells_of_leak(appliance, reading, meter)) return false;
  if (std::holds_alternative<StatedValue>(reading.observed)) return true;
  if (!std::holds_alternative<OverRange>(reading.observed)) return false;
  const OverRangeLimit limit = over_range_limit(meter, reading.range);
  const AnyQuantity least(Dimension::resistance, limit.ohm);
  const auto unit = Unit::named("ohm", Dimension::resistance);
  return limit.is_known && unit &&
         !tells_of_leak(appliance, had_it_shown(reading, StatedValue{least, std::nullopt, *unit}), meter);
}

}  // namespace ohmwright::locate
