#include "fan_motor_kind.hpp"

#include "fan_motor_part.hpp"
#include "part/comparison.hpp"
#include "part/winding_fit.hpp"

namespace ohmwright::fan_motor {

std::unique_ptr<const Part> FanMotorKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<FanMotorPart>(std::nullopt);
  std::optional<FanMotorRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<FanMotorPart>(std::move(read));
}

Fitting FanMotorKind::fit(const FitRequest& request) const { return fit_winding(request); }

std::vector<EquivalenceFinding> FanMotorKind::compare(const Part& original, const Part& candidate,
                                                      const ComparisonContext& context) const {
  // Both are of this kind, as the host promises: it made them with `make_part`.
  const auto& first = static_cast<const FanMotorPart&>(original).ratings();
  const auto& second = static_cast<const FanMotorPart&>(candidate).ratings();
  return compare_fan_motors(first ? &*first : nullptr, second ? &*second : nullptr, context);
}

}  // namespace ohmwright::fan_motor
