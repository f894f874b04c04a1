#pragma once

#include <string>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::calibration {

/// A part of known truth, and what a meter and a thermometer showed of it.
struct SimulatedPart {
  bool truly_within = false;
  Reading reading;
  double shown = 0.0;               ///< SI, what the reading shows
  double nominal_at_reading = 0.0;  ///< SI, of a good part at the temperature that was noted
};

/// How far parts are off their curve, as ln(R/nominal).
class Population {
 public:
  Population() = default;
  Population(const Population&) = delete;
  Population& operator=(const Population&) = delete;
  virtual ~Population() = default;
  virtual double draw_deviation(ReproducibleStream& stream) const = 0;
};

/// Flat over ±`half_width`: what a conformance probability takes for granted.
class FlatPopulation final : public Population {
 public:
  explicit FlatPopulation(double half_width) : half_width_(half_width) {}
  double draw_deviation(ReproducibleStream& stream) const override {
    return half_width_ * (2.0 * stream.uniform() - 1.0);
  }

 private:
  double half_width_;
};

/// Parts out of failed appliances. The shares are assumed: 70 % good, spread normally over a third of the tolerance; 30
/// % drifted by anything up to 40 %, either way.
class BenchPopulation final : public Population {
 public:
  explicit BenchPopulation(double tolerance) : tolerance_(tolerance) {}
  double draw_deviation(ReproducibleStream& stream) const override {
    constexpr double good = 0.7;
    constexpr double farthest_drift = 0.4;
    const double which = stream.uniform();
    if (which < good) return tolerance_ / 3.0 * stream.normal();
    return farthest_drift * (2.0 * stream.uniform() - 1.0);
  }

 private:
  double tolerance_;
};

/// A technician's way of reading a resistance at a temperature: the thermometer is off, the meter is off.
struct Workplace {
  double noted_kelvin = 296.15;
  double thermometer_half_width = 1.0;  ///< [K], rectangular, and told to the judge
  std::string condition = "part_temperature";
  std::string measurand = "resistance";
};

/// Draws one part and its reading: the truth at the true temperature, what is shown with the meter's error.
/// Where the part says nothing at a temperature the draw throws std::logic_error: the workplace is a wrong one.
SimulatedPart draw_part(const Part& part, const Descriptor& descriptor, const Meter& meter, const Workplace& workplace,
                        const Population& population, ReproducibleStream& stream);

}  // namespace ohmwright::calibration
