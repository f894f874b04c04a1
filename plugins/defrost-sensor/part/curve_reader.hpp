#pragma once

#include <memory>
#include <optional>

#include "curves/curve.hpp"
#include "curves/platinum_curve.hpp"
#include "part/figures.hpp"

namespace ohmwright::defrost_sensor {

/// A curve as its ratings give it.
struct ReadCurve {
  std::shared_ptr<const Curve> curve;
  Temperature reference_temperature = Temperature::from_celsius(25.0);
  std::optional<PlatinumClass> platinum_class;  ///< the tolerance of a platinum sensor
};

/// Reads the object "curve": form "beta", "steinhart-hart", "four-coefficient", "chart" or "iec-60751".
/// Nothing when it was refused; `figures` then holds the problems.
std::optional<ReadCurve> read_curve(const ValueNode& node, Figures& figures);

}  // namespace ohmwright::defrost_sensor
