#pragma once

#include <utility>
#include <variant>

#include "curves/curve.hpp"
#include "curves/platinum_curve.hpp"

namespace ohmwright::defrost_sensor {

/// Limits of a deviation ln(R/R_nominal) [dimensionless]: lower ≤ 0 ≤ upper.
struct LogLimits {
  double lower = 0.0;
  double upper = 0.0;
};

/// Limits of ln(R/R_nominal) for ±`relative` of R.
LogLimits log_limits_of(double relative);

/// ±`reference` at one temperature, and ±`slope` of everything that the curve does away from there.
struct ReferenceAndSlope {
  double reference = 0.0;  ///< relative, 0…1
  double slope = 0.0;      ///< relative: the tolerance of beta
  Temperature at = Temperature::from_celsius(25.0);
};

/// The same ±relative deviation of the resistance at every temperature.
struct OfResistance {
  double relative = 0.0;
};

/// ±kelvin at every temperature.
struct OfTemperature {
  TemperatureDifference half_width;
};

/// The class of a platinum sensor.
struct OfClass {
  PlatinumClass platinum_class = PlatinumClass::b;
};

/// How far a good part may be off its curve: worst case, as a data sheet means it, in the exact exponential form.
class Tolerance {
 public:
  using Form = std::variant<ReferenceAndSlope, OfResistance, OfTemperature, OfClass>;

  explicit Tolerance(Form form);

  /// Limits of ln(R/R_nominal) at `t` [dimensionless].
  LogLimits at(const Curve& curve, Temperature t) const;

  /// Limits of the difference between the deviations at `first` and at `second` of one good part [dimensionless]:
  /// what its reference value is off by cancels, what its slope is off by stays.
  LogLimits of_difference(const Curve& curve, Temperature first, Temperature second) const;

 private:
  Form form_;
  LogLimits relative_;  ///< of a form that states a relative deviation: two logarithms that every reading asks for
};

}  // namespace ohmwright::defrost_sensor
