#include <algorithm>
#include <cmath>
#include <numbers>

#include "compare/over_span_texts.hpp"
#include "compare/properties.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr double step_kelvin = 0.5;
/// Below a millionth in ln R two curves are one.
constexpr double one_curve_log = 1e-6;
/// More than twice or less than half the ohms: no matter of percent any more.
constexpr double far = std::numbers::ln2;
/// Where a defrost ends [°C], and what a control of the trade resolves there [K] (common practice, no source).
constexpr double usual_end_celsius = 10.0;
constexpr double least_misled_kelvin = 0.5;

struct Scan {
  Outcome outcome = Outcome::within_limits;
  Difference worst;
};

/// How bad a difference is, by what was decided of it.
double badness(const Difference& difference) {
  switch (difference.outcome) {
    case Outcome::out_of_limits:
      return 2.0 + difference.share();
    case Outcome::within_limits:
      return std::abs(difference.log) - 2.0;
    default:
      return 1.0 - difference.within;
  }
}

Scan scan(const Pair& pair, TemperatureSpan span) {
  const double width = (span.to - span.from).value();
  const int steps = std::max(1, static_cast<int>(std::ceil(width / step_kelvin)));
  Scan scanned;
  for (int i = 0; i <= steps; ++i) {
    const Temperature t = i == steps ? span.to : span.from + TemperatureDifference::from_value(width * i / steps);
    const Difference here = difference_at(pair, t);
    if (i == 0 || badness(here) > badness(scanned.worst)) scanned.worst = here;
  }
  scanned.outcome = scanned.worst.outcome;
  return scanned;
}

/// Whether an end of a defrost is misled in the same sense as at the worst place.
bool misleads_the_end(const Pair& pair, const Difference& worst) {
  const Temperature end = Temperature::from_celsius(usual_end_celsius);
  if (!pair.original.curve->domain().contains(end) || !pair.candidate.curve->domain().contains(end)) return false;
  const Difference there = difference_at(pair, end);
  return there.kelvin && std::abs(there.kelvin->value()) >= least_misled_kelvin &&
         (there.log < 0.0) == (worst.log < 0.0);
}

bool alike_at_room(const Pair& pair) {
  const Temperature room = Temperature::from_celsius(room_celsius);
  return pair.original.curve->domain().contains(room) && pair.candidate.curve->domain().contains(room) &&
         difference_at(pair, room).outcome == Outcome::within_limits;
}

const TextEntry& text_of_difference(const Pair& pair, const Difference& worst) {
  if (!worst.kelvin) return over_span::past_everything;
  if (std::abs(worst.log) > far) return over_span::far_apart;
  if (!falls(*pair.original.curve))
    return worst.kelvin->value() > 0.0 ? over_span::reads_warmer : over_span::reads_colder;
  const over_span::Variants& variants = worst.log < 0.0 ? over_span::reads_low : over_span::reads_high;
  const bool misled = misleads_the_end(pair, worst);
  if (alike_at_room(pair)) return misled ? variants.both : variants.alike_at_room;
  return misled ? variants.ends_early_or_late : variants.plain;
}

EquivalenceFinding differing(const Pair& pair, const Difference& worst) {
  EquivalenceFinding finding = finding_of(Outcome::out_of_limits, text_of_difference(pair, worst));
  const double original = pair.original.curve->log_resistance(worst.at);
  const double slope = pair.original.curve->log_slope(worst.at);
  tell(finding, "where", AnyQuantity(worst.at));
  tell(finding, "percent", percent_off(worst.log));
  if (worst.kelvin) {
    tell(finding, "kelvin", kelvins(std::abs(worst.kelvin->value())));
    tell(finding, "believed", AnyQuantity(worst.at + *worst.kelvin));
  }
  tell(finding, "allowed", percent_off(worst.limit()));
  tell(finding, "allowed_kelvin", kelvins(std::abs(worst.limit() / slope)));
  tell(finding, "room", AnyQuantity(Temperature::from_celsius(room_celsius)));
  tell(finding, "end", AnyQuantity(Temperature::from_celsius(usual_end_celsius)));
  tell(finding, "original", ohms(std::exp(original)));
  tell(finding, "candidate", ohms(std::exp(original + worst.log)));
  return finding;
}

EquivalenceFinding unknown(const Pair& pair, const Difference& worst) {
  const bool of_original = pair.original.curve->model_error(worst.at) != 0.0;
  const bool of_candidate = pair.candidate.curve->model_error(worst.at) != 0.0;
  const TemperatureSpan known = (of_original ? pair.original : pair.candidate).curve->span();
  const TextEntry* text = of_original ? &over_span::original_unknown : &over_span::candidate_unknown;
  if (of_original && of_candidate) text = &over_span::both_unknown;
  if (known.contains(worst.at)) text = &over_span::rows_far_apart;
  EquivalenceFinding finding = finding_of(Outcome::undecided, *text);
  tell(finding, "where", AnyQuantity(worst.at));
  tell(finding, "percent", percent_off(worst.log));
  tell(finding, "apart", percent_off(worst.farthest()));
  tell(finding, "known_from", AnyQuantity(known.from));
  tell(finding, "known_to", AnyQuantity(known.to));
  return finding;
}

}  // namespace

EquivalenceFinding compare_over(const Pair& pair, TemperatureSpan span) {
  const Scan scanned = scan(pair, span);
  const Difference& worst = scanned.worst;
  if (scanned.outcome == Outcome::out_of_limits) return differing(pair, worst);
  if (scanned.outcome != Outcome::within_limits) return unknown(pair, worst);
  const bool is_one = std::abs(worst.log) < one_curve_log;
  const TemperatureSpan known = pair.candidate.curve->span();
  const bool in_part = known.from > span.from || known.to < span.to;
  const TextEntry& differing_little = in_part ? over_span::same_curve_known_in_part : over_span::same_curve;
  EquivalenceFinding finding = finding_of(Outcome::within_limits, is_one ? over_span::one_curve : differing_little);
  const double slope = pair.original.curve->log_slope(worst.at);
  tell(finding, "from", AnyQuantity(span.from));
  tell(finding, "to", AnyQuantity(span.to));
  tell(finding, "where", AnyQuantity(worst.at));
  tell(finding, "percent", percent_off(worst.log));
  tell(finding, "kelvin", kelvins(std::abs(worst.kelvin ? worst.kelvin->value() : worst.log / slope)));
  tell(finding, "allowed", percent_off(worst.limit()));
  tell(finding, "known_from", AnyQuantity(known.from));
  tell(finding, "known_to", AnyQuantity(known.to));
  return finding;
}

}  // namespace ohmwright::defrost_sensor
