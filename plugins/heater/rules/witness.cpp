#include "rules/witness.hpp"

#include "rules/scene.hpp"

namespace ohmwright::heater {

namespace {

/// No alloy of the makers' tables gains more between 20 °C and 1000 °C (NiCr 35/20: 1.219).
constexpr double most_of_all_alloys = 1.22;

/// Whether what it draws can speak for the element: it draws something, near its rated volts, no other thing on the
/// plug may be what makes it too much, and no joint before it what makes it too little.
bool load_speaks(const Scene& scene) {
  return scene.load && !scene.load->far_from_rated && !scene.load->others_may_draw() && !scene.load->joint_may_take() &&
         scene.load->rated_power.value() > no_current_share * scene.ratings->power->value();
}

/// Whether the lower cold limit rests on a guess of what the wire gains, and a gain that some alloy has explains both
/// readings.
bool another_alloy_explains(const Scene& scene) {
  const HeaterRatings& ratings = *scene.ratings;
  const bool guessed = !ratings.resistance && !ratings.wire_temperature &&
                       (ratings.alloy == Alloy::unknown || ratings.alloy == Alloy::unknown_or_iron);
  const double volt = ratings.voltage->value();
  const double hot = volt * volt / scene.load->rated_power.value();
  return guessed && hot / scene.cold->ohms.value() <= most_of_all_alloys;
}

Witness where_cold_condemns(const Scene& scene) {
  const Load& load = *scene.load;
  const bool low = scene.cold->ohms.value() < scene.cold->limits.lower;
  if (low && load.outcome != Outcome::out_of_limits && another_alloy_explains(scene)) return Witness::load_over_low;
  if (load.outcome != Outcome::within_limits) return Witness::cold;
  return load.whole_plug && !low ? Witness::cold : Witness::contradiction;  // others on the plug make up what it lacks
}

}  // namespace

Witness witness_of(const Scene& scene) {
  if (!load_speaks(scene)) return scene.cold ? Witness::cold : Witness::none;
  if (!scene.cold) return Witness::load;
  if (scene.readings_disagree() || scene.cold->outcome == Outcome::within_limits) return Witness::cold;
  if (scene.cold->outcome == Outcome::out_of_limits) return where_cold_condemns(scene);
  return Witness::load;
}

}  // namespace ohmwright::heater
