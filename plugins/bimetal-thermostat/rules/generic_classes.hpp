#pragma once

#include <span>
#include <string_view>

#include "part/trip_point.hpp"

namespace ohmwright::bimetal_thermostat {

/// A class of thermostats seen in appliances, without a brand.
struct GenericClass {
  std::string_view name;  ///< of its file among the ratings; at most 15 characters, so that naming it allocates nothing
  TripPoint opening;
  TripPoint closing;
};

/// The classes of ratings/ that differ in their trip points, for parts of which nothing is known. Built once.
std::span<const GenericClass> generic_classes();

}  // namespace ohmwright::bimetal_thermostat
