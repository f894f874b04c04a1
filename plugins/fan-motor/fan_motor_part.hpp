#pragma once

#include <optional>
#include <utility>

#include <ohmwright/component/kind.hpp>

#include "part/fan_motor_ratings.hpp"

namespace ohmwright::fan_motor {

/// One fan motor, with its ratings or, without them, with nothing known.
class FanMotorPart final : public Part {
 public:
  explicit FanMotorPart(std::optional<FanMotorRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<FanMotorRatings>& ratings() const { return ratings_; }

 private:
  std::optional<FanMotorRatings> ratings_;
};

}  // namespace ohmwright::fan_motor
