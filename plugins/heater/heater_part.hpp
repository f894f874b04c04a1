#pragma once

#include <optional>
#include <utility>

#include <ohmwright/component/kind.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// One heater, with its ratings or, without them, with nothing known.
class HeaterPart final : public Part {
 public:
  explicit HeaterPart(std::optional<HeaterRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<HeaterRatings>& ratings() const { return ratings_; }

 private:
  std::optional<HeaterRatings> ratings_;
};

}  // namespace ohmwright::heater
