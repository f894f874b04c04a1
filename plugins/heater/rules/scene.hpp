#pragma once

#include <optional>
#include <string_view>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/uncertainty/fusion.hpp>

#include "part/heater_ratings.hpp"
#include "rules/load.hpp"
#include "rules/names.hpp"
#include "rules/witness.hpp"

namespace ohmwright::heater {

inline bool is_ohms(const PreparedReading& reading) { return reading.measurand == resistance; }

/// The cold ohms of the element, fused of all usable readings, each moved to 20 °C.
struct ColdOhms {
  Estimate ohms;                  ///< at 20 °C
  RatedResistance limits;         ///< at 20 °C, with room for what the alloy may do between there and the readings
  bool stated_off = true;         ///< every one of them was read with a lead off
  double worst_apart = 0.0;       ///< between two of them, in standard uncertainties
  std::optional<double> read_at;  ///< where one of them was read, when far from 20 °C: it was brought there [K]
  Conformance p;
  Outcome outcome = Outcome::undecided;
};

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const HeaterRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  std::optional<ColdOhms> cold;
  std::optional<Load> load;
  double jumping = 0.0;  ///< widest scatter of repeated ohms that jump, as a share of them; 0: none jump
  Witness witness = Witness::none;
  /// What it gets while it heats, across its own leads or at the outlet, where that is far more than it is made for;
  /// 0: it is not [V].
  double far_too_many_volt = 0.0;

  Scene(const HeaterRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  bool sure(double probability) const { return probability >= settings.confidence; }
  bool readings_disagree() const { return cold && cold->worst_apart > largest_disagreement; }
};

/// Less than this share of what it should draw is no current (common practice, no source).
inline constexpr double no_current_share = 0.05;
/// Amperes that any heater draws, where nothing is known of it: 10 W at 240 V.
inline constexpr double least_heater_ampere = 0.04;

/// Whether the reading is no more than the test leads, told by a meter fine enough to know such an element from them.
bool is_within_leads(const HeaterRatings* ratings, const PreparedReading& reading);

/// Below this current the element does not heat [A].
double no_current_below(const HeaterRatings* ratings);

/// Whether amperes were read through it that only a whole element lets through.
bool is_seen_drawing(const Scene& scene);

/// Least insulation to the frame that is asked of it [ohm].
double least_to_frame(const HeaterRatings* ratings);

/// The same of those that were read on a plugged-in appliance.
const PreparedReading* last_live_value(const Evidence& evidence, MeasurandIndex measurand);

/// The volts across its own leads, the last that were read live; null: none were, or they contradict each other.
const PreparedReading* volts_at_its_leads(const Evidence& evidence);

/// Volts across its own leads that contradict each other: their mean says nothing.
std::optional<FarApart> contradicting_volts(const Evidence& evidence);

inline AnyQuantity watts(double value) { return {Dimension::power, value}; }
inline AnyQuantity volts(double value) { return {Dimension::voltage, value}; }
inline AnyQuantity amperes(double value) { return {Dimension::current, value}; }

}  // namespace ohmwright::heater
