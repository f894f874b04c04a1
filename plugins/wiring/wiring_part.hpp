#pragma once

#include <optional>
#include <utility>

#include <ohmwright/component/kind.hpp>

#include "part/wiring_ratings.hpp"

namespace ohmwright::wiring {

/// One lead, connector or splice, with its ratings or, without them, with nothing known.
class WiringPart final : public Part {
 public:
  explicit WiringPart(std::optional<WiringRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<WiringRatings>& ratings() const { return ratings_; }

 private:
  std::optional<WiringRatings> ratings_;
};

}  // namespace ohmwright::wiring
