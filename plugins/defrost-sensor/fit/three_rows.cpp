#include "fit/three_rows.hpp"

#include <algorithm>

#include "curves/slope_change.hpp"
#include "fit/doubts.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// What the half-widths stated with the three rows may move the middle one by [K].
double stated_kelvin(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin) {
  const double share = share_of_cold(cold, middle, hot);
  return stated_half_width(middle, beta_kelvin) + share * stated_half_width(cold, beta_kelvin) +
         (1.0 - share) * stated_half_width(hot, beta_kelvin);
}

}  // namespace

double share_of_cold(const FitRow& cold, const FitRow& middle, const FitRow& hot) {
  return (middle.inverse_kelvin() - hot.inverse_kelvin()) / (cold.inverse_kelvin() - hot.inverse_kelvin());
}

double missed_by(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin,
                 double allowed_kelvin) {
  const double share = share_of_cold(cold, middle, hot);
  const double line = hot.log_resistance() + share * (cold.log_resistance() - hot.log_resistance());
  const double above = line - middle.log_resistance();
  const double bend = error_of_straight_line(middle.temperature, cold.temperature, hot.temperature, beta_kelvin);
  const double least = bend_has_known_sense(hot.temperature) ? 0.0 : -bend;
  const double missed = std::max({least - above, above - bend, 0.0});
  const double missed_kelvin = missed * middle.temperature.kelvin() * middle.temperature.kelvin() / beta_kelvin;
  const double allowed = std::max(allowed_kelvin, stated_kelvin(cold, middle, hot, beta_kelvin));
  return missed_kelvin > allowed ? missed_kelvin : 0.0;
}

}  // namespace ohmwright::defrost_sensor
