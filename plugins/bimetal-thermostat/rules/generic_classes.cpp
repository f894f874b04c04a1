#include "rules/generic_classes.hpp"

#include <array>

namespace ohmwright::bimetal_thermostat {

namespace {

// The same figures stand in ratings/*.json; a test holds the two together.
TripPoint at(double celsius, double tolerance_kelvin) {
  const TemperatureDifference tolerance = TemperatureDifference::from_value(tolerance_kelvin);
  return {Temperature::from_celsius(celsius), tolerance, tolerance, Spread::limits};
}

}  // namespace

std::span<const GenericClass> generic_classes() {
  static const std::array<GenericClass, 6> classes{{
      {"opens-5", at(4.5, 3.0), at(-9.0, 5.0)},
      {"opens-7", at(7.0, 3.0), at(-4.0, 5.0)},
      {"opens-10", at(10.0, 3.0), at(-7.0, 5.0)},
      {"opens-13", at(13.0, 3.0), at(-4.0, 5.0)},
      {"opens-16", at(16.0, 3.0), at(-2.0, 5.0)},
      {"opens-21", at(21.0, 3.0), at(-1.0, 6.0)},
  }};
  return classes;
}

}  // namespace ohmwright::bimetal_thermostat
