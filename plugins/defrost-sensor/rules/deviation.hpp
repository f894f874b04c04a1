#pragma once

#include <cmath>
#include <optional>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

#include "part/sensor_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_sensor {

/// How far a reading is off the curve at the temperature of the part.
struct Deviation {
  Deviation() = default;
  explicit Deviation(const PreparedReading& of) : reading(&of) {}

  const PreparedReading* reading = nullptr;
  Temperature temperature = Temperature::from_kelvin(0.0);
  Estimate log;              ///< ln(R/R_nominal) [dimensionless], with the errors of meter, temperature and curve
  LogLimits limits;          ///< of a good part, at that temperature
  double log_nominal = 0.0;  ///< ln(R_nominal/ohm)
  double log_read = 0.0;     ///< ln(R/ohm) as it was read

  /// ln(R/R_nominal) as it was read, at the temperature as given. `log` lies a little beside it where that temperature
  /// is in doubt, since the curve is bent: the one is shown, the other judged.
  double shown_log() const { return log_read - log_nominal; }

  /// The same in kelvin, as the sensor's own thermometer error: what it would say, less what it is.
  TemperatureDifference kelvin(const Curve& curve) const;
};

/// ln R of the curve where the part's temperature is known with an error: value and terms.
///
/// The sensitivity is the chord across the limits of the temperature's error, not the tangent in its middle: ln R is
/// bent, and the tails decide. For a 10 kohm sensor at 23 °C ± 1 K the chord gives a conformance probability of 0.9579
/// and the tangent 0.9570 where the exact one is 0.9578.
Estimate nominal_log_resistance(const Curve& curve, const Estimate& temperature);

/// The deviation of a reading against the temperature given by `condition`. Nothing when the reading shows no value
/// above 0 ohm, has no such condition, or its temperature lies outside the curve's domain.
std::optional<Deviation> deviation_of(const SensorRatings& ratings, const PreparedReading& reading,
                                      ConditionIndex condition = part_temperature);

/// Half-width of the temperature's error limits, taken as rectangular [K].
double temperature_half_width(const Estimate& temperature);

}  // namespace ohmwright::defrost_sensor
