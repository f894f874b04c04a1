#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Closed or open at a known temperature, with the hysteresis between: below the lowest closing temperature a good part
/// is closed, above the highest opening temperature open, between the two either.
RuleDescriptor describe_state_at_temperature();
void judge_state_at_temperature(const Scene& scene);

/// Whether that rule found the contact to change with no change of temperature, or between repeats of one reading.
bool seen_to_come_and_go(const Scene& scene);
/// Whether all that was read of the contact was read on a range that cannot tell it.
bool read_on_wrong_range(const Scene& scene);
/// Whether that rule found it closed in the warm and open in the cold.
bool seen_reversed(const Scene& scene);
/// Whether that rule found it closed in the cold and open in the warm, and nothing of where it changes.
bool seen_right_at_both_ends(const Scene& scene);

/// A reading of the contact at a temperature, as a good part would show it.
struct StateSeen {
  const PreparedReading* reading = nullptr;
  bool closed = false;
  double temperature = 0.0;  ///< [K]
  std::uint16_t came = history_unknown;
  double may_be_closed = 1.0;                             ///< P(a good part that came this way may be closed there)
  double may_be_open = 1.0;                               ///< P(a good part that came this way may be open there)
  double whichever_way = 1.0;                             ///< P(this observation | a good part that came either way)
  Temperature open_from = Temperature::from_kelvin(0.0);  ///< from there up every good part that came this way is open
  Temperature closed_from = Temperature::from_kelvin(0.0);  ///< from there down every one is closed

  /// P(this observation | a good part).
  double probability() const { return closed ? may_be_closed : may_be_open; }
  /// Whether the other state would have been the wrong one: a reading that speaks for the part, as far as it goes.
  bool as_it_should_be(double confidence) const {
    return (closed ? may_be_open : may_be_closed) <= 1.0 - confidence && probability() > 1.0 - confidence;
  }
};

/// The reading as a state, by the way its temperature went where that was said: one that cooled down to there closes
/// only at its closing temperature, one that warmed up opens only at its opening temperature. Nothing where it is none,
/// was taken in circuit or live, has no temperature, or nothing is known of the part.
std::optional<StateSeen> state_seen(const Scene& scene, const PreparedReading& reading);

}  // namespace ohmwright::bimetal_thermostat
