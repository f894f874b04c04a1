#pragma once

#include <optional>

#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::defrost_sensor {

/// A stretch of the temperature scale, ends included.
struct TemperatureSpan {
  Temperature from;
  Temperature to;

  bool contains(Temperature t) const { return from <= t && t <= to; }
};

/// One measured or tabulated point of a sensor.
struct CurvePoint {
  Temperature temperature;
  Resistance resistance;
};

/// How the resistance of a sensor follows its temperature. Immutable.
///
/// All rules work in ln R (R in ohms): there a tolerance is a shift, a drift is a shift, and a thermistor is almost a
/// straight line over 1/T.
class Curve {
 public:
  Curve() = default;
  Curve(const Curve&) = delete;
  Curve& operator=(const Curve&) = delete;
  virtual ~Curve();

  /// Where the formula can be evaluated at all. The functions below ask for temperatures inside.
  virtual TemperatureSpan domain() const = 0;

  /// Where its ratings claim that the formula holds.
  virtual TemperatureSpan span() const = 0;

  /// ln(R/ohm) at `t` [dimensionless].
  virtual double log_resistance(Temperature t) const = 0;

  /// d ln R / dT at `t` [1/K]: negative for a thermistor, positive for platinum.
  virtual double log_slope(Temperature t) const = 0;

  /// Temperature at which the sensor has that ln(R/ohm); nothing when it lies outside the domain.
  virtual std::optional<Temperature> temperature_at(double log_resistance) const = 0;

  /// Half-width of the model's own error in ln R at `t` [dimensionless], rectangular; 0 where the ratings vouch for it.
  ///
  /// Signed: one unknown change of slope stands behind the errors at all temperatures, so that two of them move
  /// together when their signs agree and against each other when not.
  virtual double model_error(Temperature t) const = 0;

  /// Whether at `t` the model can only be wrong to the side that the sign of `model_error` shows, ln R lying between
  /// the curve and the curve plus that error: so where a straight line in (1/T, ln R) stands for a bend of known sense.
  virtual bool errs_to_one_side(Temperature t) const;

  /// Resistance at `t` [ohm]; `t` inside the domain.
  Resistance resistance(Temperature t) const;

  /// Temperature of a sensor that reads `r`; nothing for r ≤ 0 or outside the domain.
  std::optional<Temperature> temperature(Resistance r) const;
};

/// Temperatures at which the thermistor formulas are evaluated: past them no formula here means anything.
TemperatureSpan thermistor_domain();

}  // namespace ohmwright::defrost_sensor
