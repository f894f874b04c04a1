#include "part/trip_finder.hpp"

#include <cmath>

namespace ohmwright::bimetal_thermostat {

namespace {

PassageWorth worth_of(bool opens, double warmed) {
  if (std::abs(warmed) > widest_step_kelvin) return PassageWorth::far_apart;
  const bool wrong_way = opens ? warmed < -wobble_kelvin : warmed > wobble_kelvin;
  return wrong_way ? PassageWorth::backwards : PassageWorth::good;
}

}  // namespace

std::optional<Passage> TripFinder::take(const ContactSample& sample) {
  std::optional<Passage> found;
  if (last_ && last_->closed != sample.closed)
    found = Passage{!sample.closed, *last_, sample, worth_of(!sample.closed, sample.kelvin - last_->kelvin)};
  last_ = sample;
  return found;
}

}  // namespace ohmwright::bimetal_thermostat
