#include "rules/drawn_current.hpp"

#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

Drawn too_much_says(const Scene& scene) {
  if (may_be_held(scene)) return Drawn::too_much_perhaps_held;
  return scene.plug.are_off() ? Drawn::too_much_at_other_volts : Drawn::too_much;
}

/// With more than its volts a good one draws more: too little is too little there.
Drawn too_little_says(const Scene& scene) {
  if (scene.plug.level == VoltsLevel::unknown) return Drawn::too_little_volts_unknown;
  return scene.plug.are_low() ? Drawn::too_little_at_low_volts : Drawn::too_little;
}

}  // namespace

DrawnCurrent drawn_current(const Scene& scene, const PreparedReading& reading) {
  const double rated = scene.ratings->current->value();
  const double tolerance = scene.ratings->current_tolerance;
  DrawnCurrent drawn{measure(reading.value, rated * (1.0 - tolerance), rated * (1.0 + tolerance), Dimension::current,
                             scene.evidence, scene.settings)};
  if (drawn.measured.outcome == Outcome::within_limits)
    drawn.says = scene.plug.are_off() ? Drawn::right_at_other_volts : Drawn::right;
  if (drawn.measured.outcome == Outcome::out_of_limits)
    drawn.says = drawn.measured.is_high() ? too_much_says(scene) : too_little_says(scene);
  return drawn;
}

}  // namespace ohmwright::fan_motor
