#include "sensor_kind.hpp"

#include "compare/compare_sensors.hpp"
#include "fit/fit_sensor.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor {

std::unique_ptr<const Part> SensorKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<SensorPart>(std::nullopt);
  std::optional<SensorRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<SensorPart>(std::move(read));
}

namespace {

/// A part that is handed in was made by this kind, and across the plugin's boundary no type may be asked for.
const SensorRatings* ratings_of(const Part& part) {
  const std::optional<SensorRatings>& ratings = static_cast<const SensorPart&>(part).ratings();
  return ratings ? &*ratings : nullptr;
}

}  // namespace

std::vector<EquivalenceFinding> SensorKind::compare(const Part& original, const Part& candidate,
                                                    const ComparisonContext& context) const {
  return compare_sensors(ratings_of(original), ratings_of(candidate), context);
}

Fitting SensorKind::fit(const FitRequest& request) const { return fit_sensor(request); }

}  // namespace ohmwright::defrost_sensor
