#pragma once

#include <span>
#include <string_view>

#include "part/sensor_ratings.hpp"

namespace ohmwright::defrost_sensor {

/// A class of sensors seen in appliances, without a brand.
struct GenericClass {
  std::string_view name;  ///< of its file among the ratings; at most 15 characters, so that naming it allocates nothing
  SensorRatings ratings;
};

/// The classes of ratings/, for parts of which nothing is known. Built once, on first use.
std::span<const GenericClass> generic_classes();

/// Coldest and hottest temperature that a sensor in an appliance without an oven sees (common practice, no source).
inline constexpr double coldest_celsius = -40.0;
inline constexpr double hottest_celsius = 60.0;

}  // namespace ohmwright::defrost_sensor
