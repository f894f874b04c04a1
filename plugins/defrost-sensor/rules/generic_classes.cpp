#include "rules/generic_classes.hpp"

#include <array>

#include "curves/beta_curve.hpp"
#include "curves/four_coefficient_curve.hpp"
#include "curves/platinum_curve.hpp"

namespace ohmwright::defrost_sensor {

namespace {

// The same figures stand in ratings/*.json; a test holds the two together.
constexpr double kilohm = 1e3;

SensorRatings beta_class(double ohms_at_25, double beta_kelvin, double reference_tolerance, double slope_tolerance) {
  BetaCurve::Figures figures;
  figures.reference_resistance = Resistance::from_value(ohms_at_25);
  figures.beta_kelvin = beta_kelvin;
  return {std::make_shared<BetaCurve>(figures),
          Tolerance(ReferenceAndSlope{reference_tolerance, slope_tolerance, Temperature::from_celsius(25.0)}),
          {},
          {}};
}

/// The published four-coefficient set of a B25/85 = 3977 K leaded material, which is used for many values at 25 degC.
SensorRatings four_coefficient_class(double ohms_at_25) {
  return {std::make_shared<FourCoefficientCurve>(
              FourCoefficientCurve::Coefficients{Resistance::from_value(ohms_at_25), -14.6337, 4791.842, -115334.0,
                                                 -3.730535e6},
              TemperatureSpan{Temperature::from_celsius(-40.0), Temperature::from_celsius(85.0)}),
          Tolerance(ReferenceAndSlope{0.05, 0.015, Temperature::from_celsius(25.0)}),
          {},
          {}};
}

SensorRatings platinum_class() {
  return {std::make_shared<PlatinumCurve>(Resistance::from_value(1.0 * kilohm), PlatinumClass::b),
          Tolerance(OfClass{PlatinumClass::b}),
          {},
          {}};
}

}  // namespace

std::span<const GenericClass> generic_classes() {
  static const std::array<GenericClass, 9> classes{{
      {"ntc-10k-b3435", beta_class(10.0 * kilohm, 3435.0, 0.05, 0.015)},
      {"ntc-10k-b3977", four_coefficient_class(10.0 * kilohm)},
      {"ntc-10k-b3977-2", beta_class(10.0 * kilohm, 3977.0, 0.05, 0.015)},
      {"ntc-5k-b3950", beta_class(5.0 * kilohm, 3950.0, 0.05, 0.015)},
      {"ntc-5k-b3977", four_coefficient_class(5.0 * kilohm)},
      {"ntc-2k7-b3977", four_coefficient_class(2.7 * kilohm)},
      {"ntc-50k-b3950", beta_class(50.0 * kilohm, 3950.0, 0.05, 0.02)},
      {"ntc-100k-b4100", beta_class(100.0 * kilohm, 4100.0, 0.05, 0.02)},
      {"pt1000-class-b", platinum_class()},
  }};
  return classes;
}

}  // namespace ohmwright::defrost_sensor
