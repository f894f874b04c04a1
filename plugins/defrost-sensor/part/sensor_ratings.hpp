#pragma once

#include <memory>
#include <optional>
#include <vector>

#include <ohmwright/component/value_tree.hpp>

#include "curves/curve.hpp"
#include "part/control.hpp"
#include "part/tolerance.hpp"

namespace ohmwright::defrost_sensor {

/// What is known of one sensor: its curve, how far a good one may be off, and the control it is wired to.
struct SensorRatings {
  std::shared_ptr<const Curve> curve;
  Tolerance tolerance;
  std::optional<Control> control;
  std::optional<double> watts_per_kelvin;  ///< dissipation factor in still air
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty.
std::optional<SensorRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::defrost_sensor
