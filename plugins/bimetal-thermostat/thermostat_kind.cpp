#include "thermostat_kind.hpp"

#include "part/comparison.hpp"
#include "part/trip_fit.hpp"
#include "thermostat_part.hpp"

namespace ohmwright::bimetal_thermostat {

std::unique_ptr<const Part> ThermostatKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<ThermostatPart>(std::nullopt);
  std::optional<ThermostatRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<ThermostatPart>(std::move(read));
}

Fitting ThermostatKind::fit(const FitRequest& request) const { return fit_trip_points(request); }

std::vector<EquivalenceFinding> ThermostatKind::compare(const Part& original, const Part& candidate,
                                                        const ComparisonContext& context) const {
  // Both are of this kind, as the host promises: it made them with `make_part`.
  const auto& first = static_cast<const ThermostatPart&>(original).ratings();
  const auto& second = static_cast<const ThermostatPart&>(candidate).ratings();
  return compare_ratings(first ? &*first : nullptr, second ? &*second : nullptr, context);
}

}  // namespace ohmwright::bimetal_thermostat
