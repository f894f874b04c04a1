#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/sensor_ratings.hpp"

namespace ohmwright::defrost_sensor {

/// One defrost sensor, with its ratings or, without them, with nothing known.
class SensorPart final : public Part {
 public:
  explicit SensorPart(std::optional<SensorRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<SensorRatings>& ratings() const { return ratings_; }

 private:
  std::optional<SensorRatings> ratings_;
};

}  // namespace ohmwright::defrost_sensor
