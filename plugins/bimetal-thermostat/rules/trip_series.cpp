#include "rules/trip_series.hpp"

#include <cmath>
#include <numbers>

namespace ohmwright::bimetal_thermostat {

namespace {

constexpr double seconds_a_minute = 60.0;

/// A thermometer farther behind than this is no ground for a trip point: τ and the ramp are never known to a few
/// percent (common practice, no source) [K].
constexpr double largest_lag_taken_off = 5.0;

/// A lag τ at |dT/dt| [K]; 0 where one of the two was not stated.
double lag_of(const PreparedReading& reading) {
  const Estimate* tau = reading.condition(lag);
  const Estimate* rate = reading.condition(ramp);
  if (tau == nullptr || rate == nullptr) return 0.0;
  return tau->value() * std::abs(rate->value()) / seconds_a_minute;
}

}  // namespace

void TripSeries::add(const Passage& passage, const PreparedReading& before, const PreparedReading& after) {
  if (passage.worth == PassageWorth::backwards) {
    ++backwards_;
    last_backwards_ = passage;
    return;
  }
  const bool lags_too_much = lag_of(after) > largest_lag_taken_off;
  if (passage.worth == PassageWorth::far_apart || (passage.worth == PassageWorth::good && lags_too_much)) {
    ++far_apart_;
    last_far_apart_ = passage;
    return;
  }
  if (passage.worth == PassageWorth::no_change_of_temperature) {
    ++by_itself_;
    last_by_itself_ = passage;
    return;
  }
  direction_ = passage.opens ? 1.0 : -1.0;
  const double shift = -direction_ * lag_of(after);
  passages_.add(passage.colder() + shift, passage.warmer() + shift);
  last_ = passage;
  take_doubts(before, after);
}

void TripSeries::take_doubts(const PreparedReading& before, const PreparedReading& after) {
  for (const PreparedReading* reading : {&before, &after}) {
    const Estimate* temperature = reading->condition(part_temperature);
    if (thermometer_ == nullptr || temperature->variance() > thermometer_->variance()) thermometer_ = temperature;
  }
  const double own_lag = lag_of(after);
  if (own_lag > largest_lag_) {
    largest_lag_ = own_lag;
    slowest_ = &after;
  }
}

Bracketed TripSeries::bracketed() const {
  Bracketed found;
  found.from = passages_.from();
  found.to = passages_.to();
  found.least = passages_.highest_from();
  found.most = passages_.lowest_to();
  found.scatters = passages_.scatter();
  found.shared = Estimate(passages_.middle());
  found.shared.add_uncertainty(*thermometer_, 1.0);
  if (slowest_ != nullptr) {
    const Estimate& tau = *slowest_->condition(lag);
    const Estimate& rate = *slowest_->condition(ramp);
    found.shared.add_uncertainty(tau, -direction_ * std::abs(rate.value()) / seconds_a_minute);
    found.shared.add_uncertainty(rate, -direction_ * tau.value() / seconds_a_minute);
  }
  found.judged = found.shared;
  if (found.width() > 0.0)  // T̂ = midpoint, u = (T2 − T1)/(2√3): GUM 4.3.7
    found.judged.add_term(Evidence::own_source(gap_), 0.5 * found.width() / std::numbers::sqrt3);
  return found;
}

Bracketed difference_of(const Bracketed& opening, const Bracketed& closing) {
  Bracketed difference;
  difference.judged = opening.judged;
  difference.judged.add_scaled(closing.judged, -1.0);
  difference.shared = opening.shared;
  difference.shared.add_scaled(closing.shared, -1.0);
  difference.from = opening.from - closing.to;
  difference.to = opening.to - closing.from;
  difference.scatters = opening.scatters || closing.scatters;
  difference.least = difference.from;  // where they scatter, the warmest and the coldest are of different cycles
  difference.most = difference.to;
  return difference;
}

}  // namespace ohmwright::bimetal_thermostat
