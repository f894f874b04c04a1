#include <array>

#include <ohmwright/verdict/decimal_slip.hpp>

namespace ohmwright {

std::optional<DecimalSlip> decimal_slip(std::span<const Finding> findings) {
  constexpr std::array factors{10.0, 0.1, 1000.0, 0.001, 100.0, 0.01};
  for (const Finding& finding : findings) {
    if (finding.outcome != Outcome::out_of_limits || !finding.measured) continue;
    if (!finding.limits.lower || !finding.limits.upper) continue;
    const AnyQuantity shown = *finding.measured;
    for (const double factor : factors) {
      const double moved = factor * shown.value_in_si();
      if (moved >= finding.limits.lower->value_in_si() && moved <= finding.limits.upper->value_in_si())
        return DecimalSlip{shown, AnyQuantity(shown.dimension(), moved)};
    }
  }
  return std::nullopt;
}

}  // namespace ohmwright
