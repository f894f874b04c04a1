#include "heater_kind.hpp"

#include "heater_part.hpp"
#include "part/cold_fit.hpp"
#include "part/comparison.hpp"

namespace ohmwright::heater {

std::unique_ptr<const Part> HeaterKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<HeaterPart>(std::nullopt);
  std::optional<HeaterRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<HeaterPart>(std::move(read));
}

Fitting HeaterKind::fit(const FitRequest& request) const { return fit_cold_resistance(request); }

std::vector<EquivalenceFinding> HeaterKind::compare(const Part& original, const Part& candidate,
                                                    const ComparisonContext& context) const {
  // Both are of this kind, as the host promises: it made them with `make_part`.
  const auto& first = static_cast<const HeaterPart&>(original).ratings();
  const auto& second = static_cast<const HeaterPart&>(candidate).ratings();
  return compare_heaters(first ? &*first : nullptr, second ? &*second : nullptr, context);
}

}  // namespace ohmwright::heater
