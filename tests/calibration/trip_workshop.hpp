#pragma once

#include <array>
#include <memory>
#include <string>

#include "population.hpp"
#include "workshop.hpp"

namespace ohmwright::calibration {

/// Where a contact that opens as it warms has to open, and how it is watched: warmed in steps, its state noted at each.
struct TripWatch {
  double rated_kelvin = 0.0;
  double tolerance_kelvin = 0.0;
  double step_kelvin = 1.0;
  double thermometer_half_width = 1.0;  ///< [K], rectangular, the same error at every step, and told to the judge
};

/// Thermostats whose opening point is watched. Two readings are kept of each, the last closed and the first open.
class TripWorkshop final : public Workshop {
 public:
  TripWorkshop(TripWatch watch, std::unique_ptr<const Population> population)
      : watch_(watch), population_(std::move(population)) {}

  SimulatedPart draw(ReproducibleStream& stream) const override;
  std::span<const std::string> ways_of_the_trade() const override { return ways_; }

 private:
  Reading reading_of(ContactState state, double noted_kelvin) const;

  TripWatch watch_;
  std::unique_ptr<const Population> population_;
  std::array<std::string, 1> ways_{"closed at -18 °C and open at 22 °C"};
};

}  // namespace ohmwright::calibration
