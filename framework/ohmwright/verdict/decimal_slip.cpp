#include <array>

#include <ohmwright/verdict/decimal_slip.hpp>

namespace ohmwright {

namespace {

/// Beyond its limits, even where the circumstances of the reading keep it from being condemned.
bool is_beyond(const Finding& finding) {
  constexpr double next_to_no_chance = 0.05;
  if (finding.outcome == Outcome::out_of_limits) return true;
  return finding.outcome == Outcome::undecided && finding.meaning == ProbabilityMeaning::within_limits &&
         finding.probability <= next_to_no_chance;
}

}  // namespace

DecimalSlip slip_as_displayed(const DecimalSlip& slip, double displayed) {
  const double factor = slip.right_as.value_in_si() / slip.shown.value_in_si();
  return {AnyQuantity(slip.shown.dimension(), displayed), AnyQuantity(slip.shown.dimension(), factor * displayed)};
}

std::optional<DecimalSlip> decimal_slip(const AnyQuantity& shown, const Limits& limits) {
  constexpr std::array factors{10.0, 0.1, 1000.0, 0.001, 100.0, 0.01, 1e6, 1e-6};  // the last: M typed for nothing
  if (!limits.lower || !limits.upper) return std::nullopt;
  for (const double factor : factors) {
    const double moved = factor * shown.value_in_si();
    if (moved >= limits.lower->value_in_si() && moved <= limits.upper->value_in_si())
      return DecimalSlip{shown, AnyQuantity(shown.dimension(), moved)};
  }
  return std::nullopt;
}

std::optional<DecimalSlip> decimal_slip(std::span<const Finding> findings) {
  for (const Finding& finding : findings) {
    if (!finding.measured || finding.measured->dimension() == Dimension::ratio || !is_beyond(finding)) continue;
    if (std::optional<DecimalSlip> slip = decimal_slip(*finding.measured, finding.limits)) return slip;
  }
  return std::nullopt;
}

}  // namespace ohmwright
