#include "appliance/log_ratings.hpp"

#include <algorithm>
#include <array>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright::cli {

namespace {

/// What a good part of that kind reads, with one condition and one state set, both by name; nothing where the kind
/// knows neither.
std::optional<Expectation> expected(const Descriptor& descriptor, const Part& part, std::string_view measurand,
                                    std::string_view condition, double value_in_si, std::string_view state = {},
                                    std::string_view state_value = {}) {
  const std::uint16_t asked = index_of(descriptor.measurands, measurand);
  if (asked == not_found) return std::nullopt;
  std::vector<ConditionValue> conditions;
  if (const std::uint16_t index = index_of(descriptor.conditions, condition); index != not_found)
    conditions.push_back({index, value_in_si});
  std::vector<StateValue> states;
  if (const std::uint16_t index = index_of(descriptor.states, state); index != not_found)
    if (const std::uint16_t value = index_of(descriptor.states[index].values, state_value); value != not_found)
      states.push_back({index, value});
  return part.expect(asked, Situation(conditions, states));
}

std::optional<cycles::RatedBand> band_of(const std::optional<Expectation>& expectation) {
  if (!expectation || !expectation->limits.lower || !expectation->limits.upper) return std::nullopt;
  return cycles::RatedBand{expectation->nominal.value_in_si(), expectation->limits.lower->value_in_si(),
                           expectation->limits.upper->value_in_si()};
}

/// Temperatures at which a part's contact opens while it warms: half, nearly all and nearly none of good ones closed.
std::optional<cycles::RatedBand> opening_kelvin(const Descriptor& descriptor, const Part& part) {
  constexpr double coldest_kelvin = 253.15;
  constexpr double step_kelvin = 0.1;
  constexpr int steps = 600;  // up to 313.15 K
  if (descriptor.measurands.empty()) return std::nullopt;
  std::optional<double> first_open;
  std::optional<double> half_open;
  double before = 1.0;
  for (int step = 0; step < steps; ++step) {
    const double kelvin = coldest_kelvin + step_kelvin * step;
    const auto at =
        expected(descriptor, part, descriptor.measurands.front().id, "part_temperature", kelvin, "history", "warming");
    if (!at || !at->share_closed) return std::nullopt;
    if (*at->share_closed < 1.0 && before >= 1.0) first_open = kelvin - step_kelvin;
    if (*at->share_closed <= 0.5 && !half_open) half_open = kelvin;
    if (*at->share_closed <= 0.0 && first_open && half_open)
      return cycles::RatedBand{0.5 * (*first_open + kelvin), *first_open, kelvin};
    before = *at->share_closed;
  }
  return std::nullopt;
}

}  // namespace

void add_log_ratings(const Descriptor& descriptor, const Part& part, double line_volt, cycles::LogRatings& ratings) {
  if (plays(descriptor.roles, role::heats_coil) && !ratings.heater_watt) {
    ratings.heater_volt = line_volt;
    ratings.heater_watt = band_of(expected(descriptor, part, "power", "line_voltage", line_volt));
    // Known, and worth nothing without the volts: the rule says so.
    if (!ratings.heater_watt && line_volt <= 0.0) ratings.heater_watt = cycles::RatedBand{};
  }
  if (plays(descriptor.roles, role::ends_defrost) && !ratings.end_temperature_kelvin)
    if (const auto opens = opening_kelvin(descriptor, part)) {
      ratings.end_temperature_kelvin = opens->nominal;
      ratings.end_temperature_tolerance_kelvin = 0.5 * (opens->upper - opens->lower);
    }
  if (!plays(descriptor.roles, role::times_defrost)) return;
  if (const auto interval = band_of(expected(descriptor, part, "interval", "", 0.0))) {
    ratings.interval_least_second = interval->lower;
    ratings.interval_most_second = interval->upper;
    ratings.interval_counts_running = true;
  } else if (const auto by_clock = band_of(expected(descriptor, part, "interval_by_clock", "", 0.0))) {
    ratings.interval_least_second = by_clock->lower;
    ratings.interval_most_second = by_clock->upper;
  }
  if (const auto heating = band_of(expected(descriptor, part, "advance", "", 0.0, "position", "defrost"));
      heating && !ratings.time_limit_second) {
    ratings.time_limit_second = heating->upper;
    ratings.time_limit_least_second = heating->lower;
  }
}

std::vector<std::string_view> what_logs_cannot_ask(const Descriptor& descriptor) {
  const auto reads = [&](std::string_view id) { return index_of(descriptor.measurands, id) != not_found; };
  const auto goes_with = [&](std::string_view id) { return index_of(descriptor.conditions, id) != not_found; };
  std::vector<std::string_view> lacking;
  if (plays(descriptor.roles, role::heats_coil) && !(reads("power") && goes_with("line_voltage")))
    lacking.emplace_back(OHMWRIGHT_TEXT(
        "The power of {kind} is not judged: a log is held against what its measurand \"power\" should be "
        "at the condition \"line_voltage\", and this kind has not both."));
  if (plays(descriptor.roles, role::ends_defrost) && !goes_with("part_temperature"))
    lacking.emplace_back(OHMWRIGHT_TEXT(
        "Where {kind} ends a defrost is not judged: a log is held against where its first measurand, a "
        "contact, opens along the condition \"part_temperature\", and this kind has no such condition."));
  if (plays(descriptor.roles, role::times_defrost) && !reads("interval") && !reads("interval_by_clock") &&
      !reads("advance"))
    lacking.emplace_back(
        OHMWRIGHT_TEXT("The times of {kind} are not judged: a log is held against what its measurands \"interval\" or "
                       "\"interval_by_clock\", and \"advance\", should be, and this kind has none of them."));
  return lacking;
}

cycles::LogRatings log_ratings_of(const Appliance& appliance) {
  cycles::LogRatings ratings;
  const StatedValue& supply = appliance.supply.voltage;
  const double volt = supply.value.value_in_si();
  if (volt > 0.0) ratings.line_volt = volt;
  ratings.line_half_width_volt = supply.half_width.value_or(0.0);
  for (const PlacedPart& placed : appliance.parts)
    add_log_ratings(placed.kind->descriptor(), *placed.part, volt, ratings);
  return ratings;
}

}  // namespace ohmwright::cli
