#include <algorithm>
#include <cmath>

#include <ohmwright/verdict/decision.hpp>

#include "compare/properties.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry ends_alike{
    "ends-alike",
    OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would end it at {ends_at} with this one: a good "
                   "original may end it {allowed} off, too.")};
constexpr TextEntry ends_within_control{
    "ends-within-control",
    OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would end it at {ends_at} with this one: that is "
                   "{off} off, and by itself near enough, since the control is made to hold {allowed}.")};
constexpr TextEntry ends_early{
    "ends-early",
    OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would end it at {ends_at} with this one, "
                   "{off} early: ice would stay and grow.")};
constexpr TextEntry ends_late{
    "ends-late", OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would end it at {ends_at} with this one, "
                                "{off} late: warm food and wasted energy.")};
constexpr TextEntry end_unknown{
    "end-unknown", OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would end it at about {ends_at} with "
                                  "this one, but the curves are not known well enough there: a chart would tell.")};
constexpr TextEntry never_ends{
    "never-ends",
    OHMWRIGHT_TEXT("Set to end the defrost at {set}, the control would never see that with this one: only "
                   "its time limit, if it has one, would end the defrost.")};
constexpr TextEntry no_control{
    "no-control",
    OHMWRIGHT_TEXT("By how much a defrost would end early or late: the ratings of the original do not say at which "
                   "temperature its control ends it.")};

struct Allowed {
  double early = 0.0;  ///< [K], ≤ 0
  double late = 0.0;   ///< [K], ≥ 0
};

/// What a good original may move the end by, or the control's own tolerance.
Allowed allowed_change(const SensorRatings& original, Temperature set) {
  if (const auto& stated = original.control->termination_tolerance) return {-stated->value(), stated->value()};
  const Curve& curve = *original.curve;
  const auto moved = [&](double deviation) {
    const std::optional<Temperature> end = curve.temperature_at(curve.log_resistance(set) - deviation);
    return end ? (*end - set).value() : -deviation / curve.log_slope(set);
  };
  const LogLimits limits = original.tolerance.at(curve, set);
  return {std::min(moved(limits.lower), moved(limits.upper)), std::max(moved(limits.lower), moved(limits.upper))};
}

/// How much later than set the defrost ends [K]. A control that expects the original's own curve knows the true one at
/// its set point.
Estimate lateness(const Pair& pair, Temperature set, Temperature end) {
  Estimate log(0.0);
  if (!pair.original.control->curve) add_curve_error(log, *pair.original.curve, original_curve, set, 1.0);
  add_curve_error(log, *pair.candidate.curve, candidate_curve, end, -1.0);
  Estimate late((end - set).value());
  late.add_scaled(log, 1.0 / pair.candidate.curve->log_slope(end));
  return late;
}

}  // namespace

EquivalenceFinding compare_end_of_defrost(const Pair& pair) {
  const std::optional<Control>& control = pair.original.control;
  if (!control || !control->termination_temperature) return finding_of(Outcome::silent, no_control);
  const Temperature set = *control->termination_temperature;
  const Curve& expected = control->curve ? *control->curve : *pair.original.curve;
  const std::optional<Temperature> end = pair.candidate.curve->temperature_at(expected.log_resistance(set));
  if (!end) {
    EquivalenceFinding finding = finding_of(Outcome::out_of_limits, never_ends);
    tell(finding, "set", AnyQuantity(set));
    return finding;
  }
  const Estimate late = lateness(pair, set, *end);
  const Allowed allowed = allowed_change(pair.original, set);
  const Outcome outcome =
      decide(conformance_of(late, curve_errors(), allowed.early, allowed.late), comparison_confidence);
  const double off = (*end - set).value();
  const TextEntry& near_enough = control->termination_tolerance ? ends_within_control : ends_alike;
  const TextEntry* text = outcome == Outcome::within_limits ? &near_enough : &end_unknown;
  if (outcome == Outcome::out_of_limits) text = off < 0.0 ? &ends_early : &ends_late;
  EquivalenceFinding finding = finding_of(outcome, *text);
  tell(finding, "set", AnyQuantity(set));
  tell(finding, "ends_at", AnyQuantity(*end));
  tell(finding, "off", kelvins(std::abs(off)));
  tell(finding, "allowed", kelvins(off < 0.0 ? -allowed.early : allowed.late));
  return finding;
}

}  // namespace ohmwright::defrost_sensor
