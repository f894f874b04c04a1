#include "part/leakage.hpp"

#include <algorithm>

namespace ohmwright::heater {

namespace {

constexpr double class_1_ampere = 0.75e-3;  ///< and for each kilowatt
constexpr double class_1_most_ampere = 5e-3;
constexpr double class_2_ampere = 0.25e-3;
constexpr double class_3_ampere = 0.5e-3;

}  // namespace

Current most_leakage(EarthClass earth_class, std::optional<Power> rated) {
  if (earth_class == EarthClass::two) return Current::from_value(class_2_ampere);
  if (earth_class == EarthClass::three) return Current::from_value(class_3_ampere);
  const double kilowatts = rated ? rated->value() / 1e3 : 0.0;
  return Current::from_value(std::min(class_1_most_ampere, class_1_ampere * std::max(1.0, kilowatts)));
}

Resistance insulation_that_leaks(Voltage voltage, const Current& leakage) {
  return Resistance::from_value(voltage.value() / leakage.value());
}

Current leakage_through(Voltage voltage, Resistance insulation) {
  return Current::from_value(voltage.value() / insulation.value());
}

}  // namespace ohmwright::heater
