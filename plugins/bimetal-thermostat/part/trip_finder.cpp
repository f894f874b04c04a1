#include "part/trip_finder.hpp"

#include <algorithm>
#include <cmath>

namespace ohmwright::bimetal_thermostat {

namespace {

/// Of two figures that were subtracted from one another, when they are compared [K].
constexpr double rounding_kelvin = 1e-9;

bool is_wrong_way(bool opens, double warmed) { return opens ? warmed < -wobble_kelvin : warmed > wobble_kelvin; }

bool is_same_temperature(const ContactSample& sample, double warmed) {
  return std::abs(warmed) <= std::max(step_of_notes_kelvin, sample.doubt_of_step) + rounding_kelvin;
}

}  // namespace

bool TripFinder::led_up_to(const ContactSample& sample) const {
  const double moved = sample.closed ? warmest_ - sample.kelvin : sample.kelvin - coldest_;
  return moved > wobble_kelvin;
}

std::optional<Passage> TripFinder::take(const ContactSample& sample) {
  std::optional<Passage> found;
  const bool changed = last_ && last_->closed != sample.closed;
  if (changed) {
    const double warmed = sample.kelvin - last_->kelvin;
    PassageWorth worth = PassageWorth::good;
    if (std::abs(warmed) > widest_step_kelvin)
      worth = PassageWorth::far_apart;
    else if (is_wrong_way(!sample.closed, warmed))
      worth = PassageWorth::backwards;
    else if (!led_up_to(sample) && is_same_temperature(sample, warmed))
      worth = PassageWorth::no_change_of_temperature;
    found = Passage{!sample.closed, *last_, sample, worth};
  }
  const bool begins = changed || !last_;
  coldest_ = begins ? sample.kelvin : std::min(coldest_, sample.kelvin);
  warmest_ = begins ? sample.kelvin : std::max(warmest_, sample.kelvin);
  last_ = sample;
  return found;
}

}  // namespace ohmwright::bimetal_thermostat
