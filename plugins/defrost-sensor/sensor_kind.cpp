#include "sensor_kind.hpp"

#include "fit/fit_sensor.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor {

std::unique_ptr<const Part> SensorKind::make_part(const ValueNode* ratings, std::vector<Problem>& problems) const {
  if (ratings == nullptr) return std::make_unique<SensorPart>(std::nullopt);
  std::optional<SensorRatings> read = read_ratings(*ratings, problems);
  if (!read) return nullptr;
  return std::make_unique<SensorPart>(std::move(read));
}

Fitting SensorKind::fit(const FitRequest& request) const { return fit_sensor(request); }

}  // namespace ohmwright::defrost_sensor
