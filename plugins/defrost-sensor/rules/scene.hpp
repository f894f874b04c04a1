#pragma once

#include <cmath>
#include <optional>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/component/shared_thresholds.hpp>

#include "part/sensor_ratings.hpp"
#include "rules/fusion.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_sensor {

// What a reading's circumstances allow. `unstated` is a state of its own: it is taken as lead off and dry where the
// reading cannot be flattered by that, and said aloud.

inline bool is_ohms(const PreparedReading& reading) { return reading.measurand == resistance; }
inline bool is_wet(const PreparedReading& reading) { return reading.moisture == Moisture::wet; }

/// Whether the reading lies within the leads' own resistance and the meter's last digits, or below 1 ohm, where two
/// wires measure nothing but their contacts.
bool is_within_leads(const PreparedReading& reading);

/// Whether the reading may be a short that its range cannot tell: as low as the leads, as far as the meter goes, but
/// the last digits of a range of megohms hide some hundred ohms.
bool range_hides_a_short(const PreparedReading& reading);

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const SensorRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  Deviations usable;                       ///< ohms of the part alone, dry, unpowered, at a known temperature
  std::optional<Fusion> fused;             ///< of the usable ones
  bool connection_unstated = false;        ///< of one of the usable ones
  bool any_comparable = false;             ///< two of the usable ones at about one temperature
  double worst_disagreement = 0.0;         ///< between two such, in standard uncertainties
  const PreparedReading* first = nullptr;  ///< the two that disagree most
  const PreparedReading* second = nullptr;

  /// Prepares the readings that the part alone can be judged by.
  Scene(const SensorRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  /// Holds a reading that no longer fits into the fusion against those that are in it.
  void compare_with_usable(const Deviation& another);

  bool readings_disagree() const { return worst_disagreement > largest_disagreement; }
};

/// ln to percent: 0.05 becomes 5.127.
inline double percent(double log) { return 100.0 * std::expm1(log); }

inline AnyQuantity kelvins(double value) { return {Dimension::temperature_difference, value}; }

}  // namespace ohmwright::defrost_sensor
