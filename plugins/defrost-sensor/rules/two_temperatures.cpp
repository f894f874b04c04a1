#include "rules/two_temperatures.hpp"

#include <ohmwright/verdict/decision.hpp>

#include "rules/slope.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  slope_right,
  slope_right_value_off,
  series_resistance,
  leakage,
  another_curve,
  not_told_apart,
  too_close,
  one_temperature,
  no_ratings,
  rising_curve,
  connection_unstated,
  stood_still,
  no_such_beta,
};

/// What a slope outside its limits looks like; its figure goes into the finding.
void explain(const Pair& pair, Finding& finding) {
  const Explanation series = in_series(pair);
  const Explanation parallel = in_parallel(pair);
  if (series.possible() && (!parallel.possible() || series.apart <= parallel.apart)) {
    finding.text = series_resistance;
    tell(finding, "path", ohms(series.value));
  } else if (parallel.possible()) {
    finding.text = leakage;
    tell(finding, "path", ohms(1.0 / parallel.value));
  } else {
    finding.text = another_curve;
  }
}

bool value_off(const Scene& scene) {
  const Fusion& fused = *scene.fused;
  const Conformance p = conformance_of(fused.log, scene.evidence.sources(), fused.limits.lower, fused.limits.upper);
  return decide(p, scene.settings.confidence) == Outcome::out_of_limits;
}

void judge_pair(const Scene& scene, const Pair& pair) {
  const Curve& curve = *scene.ratings->curve;
  const LogLimits limits = scene.ratings->tolerance.of_difference(curve, pair.cold.temperature, pair.hot.temperature);
  Estimate difference = pair.cold.log;
  difference.add_scaled(pair.hot.log, -1.0);
  const Conformance p = conformance_of(difference, scene.evidence.sources(), limits.lower, limits.upper);
  const double apart = pair.inverse_apart();
  const double nominal = (pair.cold.log_nominal - pair.hot.log_nominal) / apart;
  Finding& finding = scene.findings.add(two_temperatures, decide(p, scene.settings.confidence), not_told_apart);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.judged = difference;
  finding.judged_lower = limits.lower;
  finding.judged_upper = limits.upper;
  finding.measured = kelvins(std::log(pair.cold.reading->value.value() / pair.hot.reading->value.value()) / apart);
  finding.measured_uncertainty = difference.standard_uncertainty() / std::abs(apart);
  finding.limits.lower = kelvins(nominal + limits.lower / apart);
  finding.limits.upper = kelvins(nominal + limits.upper / apart);
  tell(finding, "slope_kelvin", finding.measured->value_in_si());
  tell(finding, "slope_uncertainty_kelvin", *finding.measured_uncertainty);
  tell(finding, "lower_kelvin", finding.limits.lower->value_in_si());
  tell(finding, "upper_kelvin", finding.limits.upper->value_in_si());
  tell(finding, "cold", AnyQuantity(pair.cold.temperature));
  tell(finding, "hot", AnyQuantity(pair.hot.temperature));
  tell(finding, "cold_percent", percent(pair.cold.shown_log()));
  tell(finding, "hot_percent", percent(pair.hot.shown_log()));
  if (finding.outcome == Outcome::within_limits) finding.text = value_off(scene) ? slope_right_value_off : slope_right;
  if (finding.outcome != Outcome::out_of_limits) return;
  if (const std::optional<ImpossibleSlope> impossible = impossible_slope(scene)) {
    finding.outcome = Outcome::undecided;
    finding.text = *impossible == ImpossibleSlope::stood_still ? stood_still : no_such_beta;
    finding.holds_back = true;
    finding.judged.reset();
    return;
  }
  if (!scene.connection_unstated) return explain(pair, finding);
  finding.outcome = Outcome::undecided;  // another path beside the part bends the slope too
  finding.text = connection_unstated;
  finding.holds_back = true;
  finding.judged.reset();
}

}  // namespace

RuleDescriptor describe_two_temperatures() {
  return {
      "two-temperatures",
      OHMWRIGHT_TEXT("Slope between two temperatures"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60539-1, B-value from two readings; GUM 5.2 for their shared errors (clauses from memory)",
      {
          {"slope-right",
           OHMWRIGHT_TEXT("Between {cold} and {hot} it changes as its curve does: beta {slope_kelvin} K, where a good "
                          "part has {lower_kelvin} to {upper_kelvin} K between them.")},
          {"slope-right-value-off",
           OHMWRIGHT_TEXT(
               "It changes with temperature as its curve does (beta {slope_kelvin} K) but is off by about "
               "the same share at both ({cold_percent} % cold, {hot_percent} % warm): it has drifted, or it is "
               "a sensor of another value.")},
          {"series-resistance",
           OHMWRIGHT_TEXT("Its error grows when warm ({cold_percent} % cold, {hot_percent} % warm), as about {path} in "
                          "series does: look for a corroded joint or connector before you blame the sensor.")},
          {"leakage",
           OHMWRIGHT_TEXT("It reads low, and more so when cold ({cold_percent} % cold, {hot_percent} % warm), as about "
                          "{path} beside it does: look for moisture in sensor, splice or connector.")},
          {"another-curve",
           OHMWRIGHT_TEXT(
               "Between {cold} and {hot} it changes as beta {slope_kelvin} K does, where a good part has "
               "{lower_kelvin} to {upper_kelvin} K between them, and no single path beside it explains that: this is a "
               "sensor of another curve, or a broken one.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT(
               "Its readings at {cold} and {hot} give beta {slope_kelvin} K, uncertain by {slope_uncertainty_kelvin} "
               "K; a "
               "good part has {lower_kelvin} to {upper_kelvin} K between them. That neither speaks for its curve nor "
               "against it: a better bath at both temperatures would, a better meter hardly.")},
          {"too-close",
           OHMWRIGHT_TEXT("Not judged: the temperatures lie {apart} apart; at least {least} is needed for a slope.")},
          {"one-temperature",
           OHMWRIGHT_TEXT("Not judged: a slope needs dry readings of the part alone at two temperatures.")},
          {"no-ratings", OHMWRIGHT_TEXT("Not judged: the slope of this part is not known.")},
          {"rising-curve",
           OHMWRIGHT_TEXT("Not judged: the slope of platinum does not vary; only its leads and joints add to it.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("Its readings at {cold} and {hot} give beta {slope_kelvin} K where a good part has "
                          "{lower_kelvin} to {upper_kelvin} K between them, but it was not said whether the connector "
                          "was off: another path beside "
                          "the part bends "
                          "the slope too.")},
          {"stood-still",
           OHMWRIGHT_TEXT(
               "From {cold} to {hot} it hardly changed (beta {slope_kelvin} K), while the thermometer moved. No "
               "thermistor does that: it had not followed yet, or something else was read.")},
          {"no-such-beta",
           OHMWRIGHT_TEXT("Its readings at {cold} and {hot} would mean beta {slope_kelvin} K, which no thermistor has "
                          "(they lie between 2000 and 5500 K), and no single path beside it explains that: a value was "
                          "misread, or the part was not at that temperature.")},
      }};
}

void judge_two_temperatures(const Scene& scene) {
  if (scene.fused && scene.ratings->curve->log_slope(scene.usable[0].temperature) > 0.0) {
    scene.findings.add(two_temperatures, Outcome::silent, rising_curve);
    return;
  }
  if (scene.ratings == nullptr || scene.usable.size() < 2) {
    scene.findings.add(two_temperatures, Outcome::silent, scene.ratings == nullptr ? no_ratings : one_temperature);
    return;
  }
  const Pair pair = farthest_apart(scene.usable);
  const double apart = (pair.hot.temperature - pair.cold.temperature).value();
  if (apart < least_kelvin_apart) {
    Finding& finding =
        scene.findings.add(two_temperatures, Outcome::silent, apart == 0.0 ? one_temperature : too_close);
    tell(finding, "apart", kelvins(apart));
    tell(finding, "least", kelvins(least_kelvin_apart));
    return;
  }
  judge_pair(scene, pair);
}

}  // namespace ohmwright::defrost_sensor
