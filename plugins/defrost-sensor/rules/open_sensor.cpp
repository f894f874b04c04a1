#include "rules/open_sensor.hpp"

#include <algorithm>
#include <limits>

#include <ohmwright/component/over_range.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/generic_classes.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  open_for_certain,
  open_or_far_too_high,
  comes_and_goes,
  range_too_low,
  range_unknown,
  no_over_range,
  only_in_circuit,
  only_live,
};

/// A path of more than this is no sensor of any class, however cold (common practice, no source).
constexpr double surely_open_ohms = 1e6;

/// Where a good part would have read most: at the reading's temperature, or at the coldest of an appliance.
Estimate temperature_of_highest(const SensorRatings& ratings, const PreparedReading& reading) {
  const Curve& curve = *ratings.curve;
  const bool rises = curve.log_slope(Temperature::from_celsius(0.0)) > 0.0;
  const Temperature extreme = Temperature::from_celsius(rises ? hottest_celsius : coldest_celsius);
  const Estimate* given = reading.condition(part_temperature);
  const bool usable = given != nullptr && curve.domain().contains(Temperature::from_kelvin(given->value()));
  return usable ? *given : Estimate(extreme.kelvin());
}

/// ln R of a good part at its upper limit, with the errors of temperature and curve.
Estimate upper_limit(const SensorRatings& ratings, const PreparedReading& reading) {
  const Curve& curve = *ratings.curve;
  const Estimate temperature = temperature_of_highest(ratings, reading);
  const Temperature t = Temperature::from_kelvin(temperature.value());
  Estimate upper = nominal_log_resistance(curve, temperature);
  upper.shift(ratings.tolerance.at(curve, t).upper);
  const double model_error = curve.model_error(t);
  if (model_error != 0.0) upper.add_term(Evidence::model_source, model_error / std::sqrt(3.0));
  return upper;
}

/// The class that reads most there.
const SensorRatings& highest_class(const PreparedReading& reading) {
  const auto& all = generic_classes();
  return std::max_element(all.begin(), all.end(),
                          [&](const GenericClass& a, const GenericClass& b) {
                            return upper_limit(a.ratings, reading).value() < upper_limit(b.ratings, reading).value();
                          })
      ->ratings;
}

/// With nothing known of the part: twice the highest of the classes.
double highest_of_any_class(const PreparedReading& reading) {
  return 2.0 * std::exp(upper_limit(highest_class(reading), reading).value());
}

/// A value that the part alone showed: beside it an over-range reading is a contact that comes and goes.
const PreparedReading* value_of_the_part(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading))
      return &reading;
  return nullptr;
}

}  // namespace

double highest_of_good_part(const Scene& scene, const PreparedReading& reading) {
  if (scene.ratings == nullptr) return highest_of_any_class(reading);
  return std::exp(upper_limit(*scene.ratings, reading).value());
}

double probability_past_range(const Scene& scene, const PreparedReading& reading) {
  if (!(reading.range_full_scale > 0.0)) return 1.0;
  if (scene.ratings == nullptr) return highest_of_any_class(reading) > reading.range_full_scale ? 1.0 : 0.0;
  return probability_between(upper_limit(*scene.ratings, reading), scene.evidence.sources(),
                             std::log(reading.range_full_scale), std::numeric_limits<double>::infinity());
}

RuleDescriptor describe_open() {
  return {
      "open",
      OHMWRIGHT_TEXT("Open sensor"),
      false,
      can_condemn | can_be_undecided,
      "P(over-range | good part), ours; over-range condemns only past the upper limit",
      {
          {"open",
           OHMWRIGHT_TEXT(
               "The meter shows more than {range}, and a good part reads at most {highest} at {at}: the sensor or its "
               "lead is open. The control cannot see the coil: a defrost ends on time only, and it may show an "
               "error.")},
          {"open-or-far-too-high",
           OHMWRIGHT_TEXT(
               "The meter shows more than {range}, and a good part reads at most {highest} at {at}: it is open, "
               "or it reads far too high. A higher range tells which.")},
          {"comes-and-goes",
           OHMWRIGHT_TEXT("One reading shows OL, another {measured}: a contact comes and goes, at the probes, in the "
                          "lead or in the sensor.")},
          {"range-too-low",
           OHMWRIGHT_TEXT(
               "The meter shows more than {range}, but a good part may read up to {highest} at {at}: choose a "
               "higher range.")},
          {"range-unknown",
           OHMWRIGHT_TEXT("The meter shows over-range, but on which range is not known: say the range (a good part "
                          "reads at most {highest} at {at}).")},
          {"no-over-range", OHMWRIGHT_TEXT("Not judged: no reading went past the meter's range.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged here: the over-range reading was taken in circuit, where it speaks of everything "
                          "between the probes.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
      }};
}

void judge_open(const Scene& scene) {
  const auto is_less_likely = [&](const PreparedReading& a, const PreparedReading& b) {
    return probability_past_range(scene, a) < probability_past_range(scene, b);
  };
  const OverRangeSeen seen = over_range_seen(scene.evidence, is_ohms, is_less_likely);
  const PreparedReading* const decisive = seen.decisive;
  if (decisive == nullptr) {
    scene.findings.add(open_sensor, Outcome::silent, seen.lost_as(no_over_range, only_in_circuit, only_live));
    return;
  }
  const double least = probability_past_range(scene, *decisive);
  const bool past = decide_observed(least, scene.settings.confidence) == Outcome::out_of_limits;
  const PreparedReading* value = past ? value_of_the_part(scene) : nullptr;
  const bool known = decisive->range_full_scale > 0.0;
  Text text = known ? range_too_low : range_unknown;
  if (past) text = decisive->range_full_scale < surely_open_ohms ? open_or_far_too_high : open_for_certain;
  if (value != nullptr) text = comes_and_goes;
  const bool condemned = past && value == nullptr;
  Finding& finding = scene.findings.add(open_sensor, condemned ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = value != nullptr;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = least;
  finding.limits.upper = ohms(highest_of_good_part(scene, *decisive));
  tell(finding, "highest", *finding.limits.upper);
  const SensorRatings& told = scene.ratings != nullptr ? *scene.ratings : highest_class(*decisive);
  tell(finding, "at", AnyQuantity(Dimension::temperature, temperature_of_highest(told, *decisive).value()));
  tell(finding, "range", ohms(decisive->range_full_scale));
  if (value != nullptr) tell(finding, "measured", ohms(value->displayed));
}

}  // namespace ohmwright::defrost_sensor
