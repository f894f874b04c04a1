#include "rules/plug_volts.hpp"

#include <cmath>

#include <ohmwright/component/reading_questions.hpp>

#include "rules/names.hpp"

namespace ohmwright::fan_motor {

namespace {

/// Where nobody knows for how many volts it is made, these feed it (common practice, no source) [V].
constexpr double fed_volt = 5.0;

/// Shares of the rated volts up to which a level reaches. Half and 115 %: common practice, no source.
constexpr double most_of_unfed = 0.5;
constexpr double least_of_right = 0.9;
constexpr double most_of_right = 1.1;
constexpr double most_of_high = 1.15;

VoltsLevel level_of(double share) {
  if (share <= most_of_unfed) return VoltsLevel::far_too_low;
  if (share < least_of_right) return VoltsLevel::low;
  if (share <= most_of_right) return VoltsLevel::right;
  return share <= most_of_high ? VoltsLevel::high : VoltsLevel::far_too_high;
}

}  // namespace

bool PlugVolts::feed() const {
  if (level != VoltsLevel::unknown) return !are_low();
  return reading != nullptr && std::abs(volt) >= fed_volt;
}

PlugVolts plug_volts(const FanMotorRatings* ratings, const Evidence& evidence) {
  PlugVolts volts;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand == supply && reading.shown == Shown::value && is_live(reading)) volts.reading = &reading;
  if (volts.reading == nullptr) return volts;
  const std::optional<FarApart> apart = far_apart(evidence, *volts.reading);
  volts.volt = apart && apart->count == 2 ? apart->largest() : volts.reading->displayed;
  if (ratings != nullptr && ratings->voltage) {
    volts.share = std::abs(volts.volt) / ratings->voltage->value();
    volts.level = level_of(volts.share);
  }
  if (!apart || volts.are_far_too_high()) return volts;
  PlugVolts nothing;
  nothing.apart = apart;
  return nothing;
}

}  // namespace ohmwright::fan_motor
