#pragma once

#include <optional>
#include <utility>

#include <ohmwright/component/kind.hpp>

#include "part/thermostat_ratings.hpp"

namespace ohmwright::bimetal_thermostat {

/// One bimetal thermostat, with its ratings or, without them, with nothing known.
class ThermostatPart final : public Part {
 public:
  explicit ThermostatPart(std::optional<ThermostatRatings> ratings) : ratings_(std::move(ratings)) {}

  void judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const override;
  std::optional<Expectation> expect(std::uint16_t measurand, const Situation& situation) const override;
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

  const std::optional<ThermostatRatings>& ratings() const { return ratings_; }

 private:
  std::optional<ThermostatRatings> ratings_;
};

}  // namespace ohmwright::bimetal_thermostat
