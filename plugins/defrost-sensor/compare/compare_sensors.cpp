#include "compare/compare_sensors.hpp"

#include <algorithm>

#include "compare/properties.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry nothing_known{
    "nothing-known",
    OHMWRIGHT_TEXT("Without the ratings of both parts nothing can be compared: name a class, or a file "
                   "with the chart.")};
constexpr TextEntry candidate_rises{
    "candidate-rises", OHMWRIGHT_TEXT("The resistance of the original falls as it gets warmer (NTC), that of this one "
                                      "rises, as platinum does: the control would take warm for cold.")};
constexpr TextEntry candidate_falls{
    "candidate-falls", OHMWRIGHT_TEXT("The resistance of the original rises as it gets warmer, as platinum does, that "
                                      "of this one falls (NTC): the control would take warm for cold.")};
constexpr TextEntry out_of_reach{
    "out-of-reach", OHMWRIGHT_TEXT("From {from} to {to} one of the two curves cannot be used at all: check the span.")};

constexpr double usual_from_celsius = -30.0;
constexpr double usual_to_celsius = 30.0;

TemperatureSpan span_of(const ComparisonContext& context) {
  const auto given = [](const std::optional<AnyQuantity>& end, double usual_celsius) {
    return end ? Temperature::from_kelvin(end->value_in_si()) : Temperature::from_celsius(usual_celsius);
  };
  TemperatureSpan span{given(context.from, usual_from_celsius), given(context.to, usual_to_celsius)};
  // One end alone may lie past the usual other one.
  if (span.to < span.from) (context.from ? span.to : span.from) = context.from ? span.from : span.to;
  return span;
}

}  // namespace

std::vector<EquivalenceFinding> compare_sensors(const SensorRatings* original, const SensorRatings* candidate,
                                                const ComparisonContext& context) {
  if (original == nullptr || candidate == nullptr) return {finding_of(Outcome::undecided, nothing_known)};
  const Pair pair{*original, *candidate};
  if (falls(*original->curve) != falls(*candidate->curve))
    return {finding_of(Outcome::out_of_limits, falls(*original->curve) ? candidate_rises : candidate_falls)};
  const TemperatureSpan asked = span_of(context);
  const TemperatureSpan first = original->curve->domain();
  const TemperatureSpan second = candidate->curve->domain();
  const TemperatureSpan span{std::max({asked.from, first.from, second.from}),
                             std::min({asked.to, first.to, second.to})};
  std::vector<EquivalenceFinding> findings;
  Outcome over = Outcome::undecided;
  if (span.to < span.from) {
    findings.push_back(finding_of(over, out_of_reach));
    tell(findings.back(), "from", AnyQuantity(asked.from));
    tell(findings.back(), "to", AnyQuantity(asked.to));
  } else {
    findings.push_back(compare_over(pair, span));
    over = findings.back().outcome;
  }
  if (const std::optional<EquivalenceFinding> room = compare_at_room(pair, over)) findings.push_back(*room);
  if (!(span.to < span.from)) findings.push_back(compare_tolerances(pair, span));
  findings.push_back(compare_end_of_defrost(pair));
  return findings;
}

}  // namespace ohmwright::defrost_sensor
