#pragma once

#include <array>
#include <memory>
#include <string>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>

#include "population.hpp"
#include "workshop.hpp"

namespace ohmwright::calibration {

/// A technician's way of reading a resistance at a temperature: the thermometer is off, the meter is off.
struct ResistanceReading {
  double noted_kelvin = 296.15;
  double thermometer_half_width = 1.0;  ///< [K], rectangular, and told to the judge
  std::string condition = "part_temperature";
  std::string measurand = "resistance";
  int times = 1;  ///< how often it is read at that temperature: meter, leads and thermometer err alike each time
};

/// Parts that are told by their ohms at one temperature.
class ResistanceWorkshop final : public Workshop {
 public:
  /// Throws std::logic_error where the part says nothing at that temperature: the reading is a wrong one.
  ResistanceWorkshop(std::shared_ptr<const Part> part, const Descriptor& descriptor, Meter meter,
                     ResistanceReading reading, std::unique_ptr<const Population> population);

  SimulatedPart draw(ReproducibleStream& stream) const override;
  std::span<const std::string> ways_of_the_trade() const override { return ways_; }

 private:
  Expectation expected_at(double kelvin) const;
  Reading reading_of(double shown) const;
  double jitter_around(double shown, ReproducibleStream& stream) const;

  std::shared_ptr<const Part> part_;
  Meter meter_;
  ResistanceReading reading_;
  std::unique_ptr<const Population> population_;
  std::uint16_t measurand_;
  std::uint16_t condition_;
  Dimension dimension_;
  double nominal_at_25_;
  double nominal_as_noted_;
  std::array<std::string, 2> ways_{"chart at 25 °C, ± 10 %", "± 10 % at the noted temperature"};
};

}  // namespace ohmwright::calibration
