#include "control_kind.hpp"

#include "control_part.hpp"
#include "part/comparison.hpp"
#include "part/motor_fit.hpp"

namespace ohmwright::defrost_control {

std::unique_ptr<const Part> ControlKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<ControlPart>(std::nullopt);
  std::optional<ControlRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<ControlPart>(std::move(read));
}

Fitting ControlKind::fit(const FitRequest& request) const { return fit_motor(request); }

std::vector<EquivalenceFinding> ControlKind::compare(const Part& original, const Part& candidate,
                                                     const ComparisonContext& context) const {
  // Both are of this kind, as the host promises: it made them with `make_part`.
  const auto& first = static_cast<const ControlPart&>(original).ratings();
  const auto& second = static_cast<const ControlPart&>(candidate).ratings();
  return compare_controls(first ? &*first : nullptr, second ? &*second : nullptr, context);
}

}  // namespace ohmwright::defrost_control
