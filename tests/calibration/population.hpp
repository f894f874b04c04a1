#pragma once

#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::calibration {

/// How far parts are off what they are rated for: as ln(R/nominal), of a trip point in kelvin.
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
/// % drifted by anything up to `farthest_drift`, either way.
class BenchPopulation final : public Population {
 public:
  BenchPopulation(double tolerance, double farthest_drift) : tolerance_(tolerance), farthest_drift_(farthest_drift) {}
  double draw_deviation(ReproducibleStream& stream) const override {
    constexpr double good = 0.7;
    const double which = stream.uniform();
    if (which < good) return tolerance_ / 3.0 * stream.normal();
    return farthest_drift_ * (2.0 * stream.uniform() - 1.0);
  }

 private:
  double tolerance_;
  double farthest_drift_;
};

}  // namespace ohmwright::calibration
