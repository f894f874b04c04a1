#pragma once

#include <cstdint>

#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::bimetal_thermostat {

/// How a tolerance is meant.
enum class Spread : std::uint8_t {
  limits,  ///< no good part is farther off
  normal,  ///< 95 % of the good parts are nearer: two standard deviations (GUM 4.3.4, k = 2)
};

/// A temperature at which good parts open, or close.
struct TripPoint {
  Temperature nominal = Temperature::from_kelvin(0.0);
  TemperatureDifference tolerance;  ///< half-width of new parts ("manufacturing deviation", IEC 60730-1)
  TemperatureDifference allowed;    ///< half-width in service, with the drift of a life; at least `tolerance`
  Spread spread = Spread::limits;

  Temperature lowest() const { return nominal - allowed; }
  Temperature highest() const { return nominal + allowed; }
  /// Standard deviation of the good parts where their spread is normal [K].
  double standard_deviation() const { return 0.5 * allowed.value(); }
  /// Share of the good parts that trip above `t` [0…1]; between limits every temperature is as likely (GUM 4.3.7).
  double share_above(Temperature t) const;
};

/// The opening and closing temperature of one part lie this far apart.
struct Differential {
  TemperatureDifference nominal;
  TemperatureDifference tolerance;

  double lowest() const { return nominal.value() - tolerance.value(); }
  double highest() const { return nominal.value() + tolerance.value(); }
};

}  // namespace ohmwright::bimetal_thermostat
