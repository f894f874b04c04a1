#pragma once

#include <optional>
#include <utility>

#include <ohmwright/component/kind.hpp>

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// One control, with its ratings or, without them, with nothing known.
class ControlPart final : public Part {
 public:
  explicit ControlPart(std::optional<ControlRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<ControlRatings>& ratings() const { return ratings_; }

 private:
  std::optional<ControlRatings> ratings_;
};

}  // namespace ohmwright::defrost_control
