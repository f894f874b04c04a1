#include <algorithm>
#include <array>
#include <cmath>

#include "compare/properties.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry alike{
    "alike-at-room", OHMWRIGHT_TEXT("At {where} it reads {candidate}, the original {original}: {percent} % apart.")};
constexpr TextEntry alike_only{
    "alike-at-room-only",
    OHMWRIGHT_TEXT("At {where} it reads {candidate}, the original {original}: {percent} % apart. A "
                   "reading at room temperature would not tell one from the other.")};
constexpr TextEntry lower_value{
    "lower-value", OHMWRIGHT_TEXT("At {where} it reads {candidate}, {percent} % below the {original} of the original, "
                                  "which may be {allowed} % low.")};
constexpr TextEntry higher_value{
    "higher-value", OHMWRIGHT_TEXT("At {where} it reads {candidate}, {percent} % above the {original} of the original, "
                                   "which may be {allowed} % high.")};
constexpr TextEntry slipped_value{
    "slipped-value",
    OHMWRIGHT_TEXT("At {where} it reads {candidate}, the original {original}: one is {factor} times the "
                   "other. Another value, or did a unit or a decimal point slip in one of the two "
                   "ratings?")};
constexpr TextEntry unsure_value{
    "unsure-at-room", OHMWRIGHT_TEXT("At {where} it reads {candidate} by its curve and the original {original}, but "
                                     "what is stated of them does not reach so far.")};

/// As near as a slip comes where both ratings are good: two tolerances of 5 %.
constexpr double slip_slack = 0.1;

/// 10, 100 or 1000 where one is that many times the other; else 0.
double slip_between(double log) {
  for (const double factor : {10.0, 100.0, 1000.0})
    if (std::abs(std::abs(log) - std::log(factor)) < slip_slack) return factor;
  return 0.0;
}

const TextEntry& text_at_room(const Difference& room, Outcome over_the_span) {
  if (room.outcome == Outcome::undecided) return unsure_value;
  if (room.outcome == Outcome::within_limits) return over_the_span == Outcome::within_limits ? alike : alike_only;
  if (slip_between(room.log) > 0.0) return slipped_value;
  return room.log < 0.0 ? lower_value : higher_value;
}

}  // namespace

std::optional<EquivalenceFinding> compare_at_room(const Pair& pair, Outcome over_the_span) {
  const Temperature t = Temperature::from_celsius(room_celsius);
  if (!pair.original.curve->domain().contains(t) || !pair.candidate.curve->domain().contains(t)) return std::nullopt;
  const Difference room = difference_at(pair, t);
  EquivalenceFinding finding = finding_of(room.outcome, text_at_room(room, over_the_span));
  tell(finding, "where", AnyQuantity(t));
  tell(finding, "original", AnyQuantity(pair.original.curve->resistance(t)));
  tell(finding, "candidate", AnyQuantity(pair.candidate.curve->resistance(t)));
  tell(finding, "percent", percent_off(room.log));
  tell(finding, "allowed", percent_off(room.limit()));
  tell(finding, "factor", slip_between(room.log));
  return finding;
}

}  // namespace ohmwright::defrost_sensor
