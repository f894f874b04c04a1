#include "log/simulate.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdlib>

#include <fmt/format.h>

#include <ohmwright/component/role.hpp>
#include <ohmwright/locate/faults.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/thermal/appliance_run.hpp>

#include "appliance/files.hpp"
#include "appliance/log_ratings.hpp"
#include "exit_codes.hpp"
#include "output.hpp"

namespace ohmwright::cli {

namespace {

constexpr double most_rows = 5e6;
constexpr double least_spacing_second = 0.01;  // no logger here is faster, and stamps have thousandths

double typed_in(const Arguments& arguments, std::string_view option, Dimension dimension, double otherwise) {
  if (!arguments.has(option)) return otherwise;
  const double value = parse_stated_value(arguments.value(option), dimension).value.value_in_si();
  if (!(value > 0.0))
    throw InputError(std::string(option) + " takes a value above 0, got " + ohmwright::quoted(arguments.value(option)));
  return value;
}

std::uint64_t typed_seed(const Arguments& arguments) {
  const std::string text = arguments.value("--seed", "1");
  constexpr std::size_t most_digits = 18;
  const bool digits = !text.empty() && text.size() <= most_digits && text.find_first_not_of("0123456789") == text.npos;
  if (!digits) throw InputError("--seed takes a whole number of at most 18 digits, got " + ohmwright::quoted(text));
  return std::stoull(text);
}

double typed_days(const Arguments& arguments) {
  const std::string text = arguments.value("--days", "4");
  char* end = nullptr;
  const double days = std::strtod(text.c_str(), &end);
  if (end == text.c_str() || *end != '\0' || !(days > 0.0) || !(days <= 3660.0))
    throw InputError("--days takes a number of days up to 3660, got " + ohmwright::quoted(text));
  return days;
}

/// The effects that faults of this appliance have on a log, by what people type: PART.FAULT, a cause outside, or an
/// effect's own name.
struct NamedEffect {
  std::string name;
  thermal::SimulatedFault effect;
};

/// Only what blows where a part heats the coil is the fan over it: a compressor moves heat in another place.
bool stands_at_the_coil(const Appliance& appliance, const PlacedPart& part) {
  return std::any_of(appliance.parts.begin(), appliance.parts.end(), [&](const PlacedPart& other) {
    return plays(other.kind->descriptor().roles, role::heats_coil) && other.zone.has_value() && other.zone == part.zone;
  });
}

/// Faults that parts of this appliance can have, as a search for the fault lists them, and what a log shows of each.
std::vector<NamedEffect> effects_of_parts(const Appliance& appliance) {
  std::vector<NamedEffect> effects;
  const locate::FaultList faults(appliance, locate::PriorSettings{.most_faults = 1});
  for (std::size_t i = 0; i < faults.faults().size(); ++i) {
    const PlacedPart& part = appliance.parts[faults.faults()[i].fault.part];
    const auto effect = thermal::effect_on_log(faults.mode(i), part.kind->descriptor().roles);
    if (!effect || (*effect == thermal::SimulatedFault::fan_stopped && !stands_at_the_coil(appliance, part))) continue;
    effects.push_back({faults.name(i), *effect});
  }
  return effects;
}

std::vector<NamedEffect> named_effects(const Appliance& appliance) {
  std::vector<NamedEffect> effects;
  for (const thermal::SimulatedFault fault : thermal::simulated_faults())
    effects.push_back({std::string(thermal::name_of(fault)), fault});
  for (NamedEffect& one : effects_of_parts(appliance)) effects.push_back(std::move(one));
  for (const OutsideCause& cause : appliance.outside_causes)
    for (const SeenSymptom& seen : cause.symptoms)
      if (seen.symptom == "door-does-not-close") effects.push_back({cause.id, thermal::SimulatedFault::door_ajar});
  return effects;
}

thermal::SimulatedFault typed_fault(const std::string& word, const Appliance& appliance) {
  std::vector<std::string> known;
  for (const NamedEffect& one : named_effects(appliance)) {
    if (one.name == word) return one.effect;
    known.push_back(one.name);
  }
  throw InputError("no fault " + ohmwright::quoted(word) +
                   " that this appliance can have and a simulated log would show" + did_you_mean(word, known) +
                   "; known here: " + listed(known));
}

thermal::AppliancePlan typed_plan(const Arguments& arguments, const Appliance& appliance) {
  if (appliance.refrigerant == "none")
    throw InputError("log simulate makes up the log of a refrigerator or freezer, and " +
                     ohmwright::quoted(appliance.id) + " cools nothing");
  const cycles::LogRatings ratings = log_ratings_of(appliance);
  if (!ratings.heater_watt)
    throw InputError("the appliance " + ohmwright::quoted(appliance.id) +
                     " has no part that heats a coil and says how many watts; a log of defrosts cannot be simulated");
  thermal::AppliancePlan plan;
  plan.line_volt = ratings.line_volt.value_or(plan.line_volt);
  plan.heater_watt = ratings.heater_watt->nominal;
  plan.end_kelvin = ratings.end_temperature_kelvin.value_or(plan.end_kelvin);
  // Within the rated range, where controls usually are (assumed): not at its ends.
  const double longest = ratings.time_limit_second.value_or(plan.time_limit_second);
  plan.time_limit_second = 0.5 * (ratings.time_limit_least_second.value_or(longest) + longest);
  if (plan.time_limit_second < 1200.0) plan.time_limit_second = longest;
  plan.interval_counts_running = ratings.interval_counts_running;
  if (ratings.interval_least_second && ratings.interval_most_second)
    plan.interval_second =
        std::clamp(plan.interval_second, 1.1 * *ratings.interval_least_second, 0.9 * *ratings.interval_most_second);
  plan.days = typed_days(arguments);
  plan.spacing_second = typed_in(arguments, "--every", Dimension::duration, plan.spacing_second);
  if (plan.spacing_second < least_spacing_second)
    throw InputError("--every takes at least 10ms for simulated rows, got " +
                     ohmwright::quoted(arguments.value("--every")));
  if (arguments.has("--fault")) plan.fault = typed_fault(arguments.value("--fault"), appliance);
  if (plan.days * 86400.0 / plan.spacing_second > most_rows)
    throw InputError("that would be more than five million rows; take fewer --days or a longer --every");
  return plan;
}

/// Time stamps from the first day of a year of our own making, with a fraction where rows need one.
std::string stamp(double second, bool has_fraction) {
  using namespace std::chrono;
  constexpr sys_days start = 2026y / January / 1;
  const auto passed = milliseconds(std::llround((has_fraction ? second : std::round(second)) * 1000.0));
  const sys_seconds at = start + floor<seconds>(passed);
  const sys_days day = floor<days>(at);
  const year_month_day date(day);
  const hh_mm_ss<seconds> clock(at - day);
  const std::string fraction =
      has_fraction ? fmt::format(".{:03}", (passed - floor<seconds>(passed)).count()) : std::string();
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}:{:02}{}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), clock.hours().count(),
                     clock.minutes().count(), clock.seconds().count(), fraction);
}

std::string as_csv(const thermal::ApplianceLog& log, double spacing_second) {
  const bool has_fraction = std::floor(spacing_second) != spacing_second;
  std::string text = "time,power (W),coil (°C),cabinet (°C)\n";
  const auto of = [](const cycles::LogRow& row, cycles::LogQuantity quantity) {
    return row.value[cycles::index_of(quantity)];
  };
  constexpr double ice_point = Temperature::kelvin_at_zero_celsius;
  for (const cycles::LogRow& row : log.rows)
    text += fmt::format("{},{:.1f},{:.1f},{:.1f}\n", stamp(row.time_second, has_fraction),
                        of(row, cycles::LogQuantity::power), of(row, cycles::LogQuantity::coil_temperature) - ice_point,
                        of(row, cycles::LogQuantity::cabinet_temperature) - ice_point);
  return text;
}

}  // namespace

int simulate_log(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.size() < 2)
    throw InputError("log simulate needs an appliance: ohmwright log simulate upright-thermistor-230v");
  const Appliance appliance = open_appliance(environment, arguments.operands[1]);
  const thermal::AppliancePlan plan = typed_plan(arguments, appliance);
  deliver(as_csv(thermal::run_appliance(plan, typed_seed(arguments)), plan.spacing_second), arguments, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
