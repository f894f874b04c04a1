#include "rules/drawn_current.hpp"

#include <algorithm>

#include "rules/capacitor.hpp"
#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

Drawn too_much_says(const Scene& scene) {
  if (may_be_held(scene)) return Drawn::too_much_perhaps_held;
  if (scene.plug.are_off()) return Drawn::too_much_at_other_volts;
  if (scene.plug.level == VoltsLevel::unknown) return Drawn::too_much_volts_unknown;
  return may_be_its_capacitor(scene) ? Drawn::too_much_perhaps_capacitor : Drawn::too_much;
}

/// With more than its volts a good one draws more: too little is too little there.
Drawn too_little_says(const Scene& scene) {
  if (scene.plug.level == VoltsLevel::unknown) return Drawn::too_little_volts_unknown;
  if (scene.plug.are_low()) return Drawn::too_little_at_low_volts;
  return is_said_clear(scene) ? Drawn::too_little : Drawn::too_little_perhaps_air;
}

/// What a good one draws at the volts it gets: with them by their first to their second power, whichever is farther
/// (common practice, no source: the load of a fan hardly changes, its iron's current does).
Span limits_at_its_volts(const Scene& scene) {
  const double rated = scene.ratings->current->value();
  const double tolerance = scene.ratings->current_tolerance;
  const double share = scene.plug.level == VoltsLevel::right ? scene.plug.share : 1.0;
  return {rated * (1.0 - tolerance) * std::min(1.0, share * share),
          rated * (1.0 + tolerance) * std::max(1.0, share * share)};
}

}  // namespace

DrawnCurrent drawn_current(const Scene& scene, const PreparedReading& reading) {
  const Span limits = limits_at_its_volts(scene);
  DrawnCurrent drawn{
      measure(reading.value, limits.lower, limits.upper, Dimension::current, scene.evidence, scene.settings)};
  if (drawn.measured.outcome == Outcome::within_limits)
    drawn.says = scene.plug.are_off() ? Drawn::right_at_other_volts : Drawn::right;
  if (drawn.measured.outcome == Outcome::out_of_limits)
    drawn.says = drawn.measured.is_high() ? too_much_says(scene) : too_little_says(scene);
  if (scene.other_frequency) drawn.says = Drawn::at_other_frequency;
  return drawn;
}

}  // namespace ohmwright::fan_motor
