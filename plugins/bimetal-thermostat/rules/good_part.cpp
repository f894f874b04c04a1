#include "rules/good_part.hpp"

#include <cmath>
#include <limits>
#include <numbers>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/sum_distribution.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Distribution of temperature less trip point, about the difference of their middles.
SumDistribution difference_to(const TripPoint& trip, const Estimate& temperature,
                              std::span<const ErrorSource> sources) {
  SumDistribution sum(temperature.terms(), sources);
  if (trip.spread == Spread::normal) sum.add(Shape::normal, infinity, trip.standard_deviation());
  return sum;
}

double farthest_beyond(const TripPoint& trip, double half_width_kelvin, double confidence) {
  if (trip.spread == Spread::limits) return trip.allowed.value() + half_width_kelvin;
  const double doubt = half_width_kelvin / std::numbers::sqrt3;
  return normal_quantile(confidence) * std::hypot(trip.standard_deviation(), doubt);
}

}  // namespace

double may_trip_above(const TripPoint& trip, const Estimate& temperature, std::span<const ErrorSource> sources) {
  const Temperature end = trip.spread == Spread::limits ? trip.highest() : trip.nominal;
  return difference_to(trip, temperature, sources).probability_between(-infinity, end.kelvin() - temperature.value());
}

double may_trip_below(const TripPoint& trip, const Estimate& temperature, std::span<const ErrorSource> sources) {
  const Temperature end = trip.spread == Spread::limits ? trip.lowest() : trip.nominal;
  return difference_to(trip, temperature, sources).probability_between(end.kelvin() - temperature.value(), infinity);
}

double half_width_of_temperature(const Estimate& temperature) {
  return std::numbers::sqrt3 * temperature.standard_uncertainty();
}

Temperature surely_above(const TripPoint& trip, double half_width_kelvin, double confidence) {
  return trip.nominal + TemperatureDifference::from_value(farthest_beyond(trip, half_width_kelvin, confidence));
}

Temperature surely_below(const TripPoint& trip, double half_width_kelvin, double confidence) {
  return trip.nominal - TemperatureDifference::from_value(farthest_beyond(trip, half_width_kelvin, confidence));
}

}  // namespace ohmwright::bimetal_thermostat
