#include "wiring_kind.hpp"

#include "part/comparison.hpp"
#include "part/drop_fit.hpp"
#include "wiring_part.hpp"

namespace ohmwright::wiring {

std::unique_ptr<const Part> WiringKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<WiringPart>(std::nullopt);
  std::optional<WiringRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<WiringPart>(std::move(read));
}

Fitting WiringKind::fit(const FitRequest& request) const { return fit_drop(request); }

std::vector<EquivalenceFinding> WiringKind::compare(const Part& original, const Part& candidate,
                                                    const ComparisonContext& context) const {
  // Both are of this kind, as the host promises: it made them with `make_part`.
  const auto& first = static_cast<const WiringPart&>(original).ratings();
  const auto& second = static_cast<const WiringPart&>(candidate).ratings();
  return compare_wiring(first ? &*first : nullptr, second ? &*second : nullptr, context);
}

}  // namespace ohmwright::wiring
