#pragma once

#include <optional>
#include <string_view>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/uncertainty/fusion.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "part/wiring_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::wiring {

inline bool is_ohms(const PreparedReading& reading) { return reading.measurand == resistance; }
inline bool is_clipped(const PreparedReading& reading) { return reading.state(probes) == probes_clipped; }
/// Ohms that speak of this wire alone, as far as anybody said.
inline bool is_of_the_wire(const PreparedReading& reading) {
  return is_ohms(reading) && !is_live(reading) && !is_in_circuit(reading);
}

/// More than any sound lead, connector or splice of a household appliance has: 10 m of 0.5 mm² are 0.4 ohm (common
/// practice, no source) [ohm].
inline constexpr double most_of_any_wiring = 1.0;

/// The ohms from end to end, fused of all readings that speak of the wire alone.
struct OhmsSeen {
  Estimate excess;         ///< over the most that a good one has at the same warmth [ohm]; over 0 where that is unknown
  double limit = 0.0;      ///< that most, at the last of the readings [ohm]
  double doubt = 0.0;      ///< half-width of what meter and test leads leave open in the best of them [ohm]
  bool stated_off = true;  ///< every one of them was read with an end off
  double worst_apart = 0.0;  ///< between two of them, in standard uncertainties
  bool below_zero = false;   ///< one of them is less than the test leads that were taken off
  double copper = 0.0;       ///< what copper of its measured length has by itself [ohm]; 0 where it was not measured
  bool less_than_copper = false;
  Conformance p;
  Outcome outcome = Outcome::undecided;

  double value() const { return excess.value() + limit; }
  /// Two wires measure their own contacts below their own doubt: such a reading condemns, it cannot clear.
  bool drowns_in_leads() const { return doubt >= limit; }
  /// No such wire reads so little: it is not judged.
  bool implausible() const { return below_zero || less_than_copper; }
};

/// The volts across it while its load ran, with the amperes.
struct DropSeen {
  const PreparedReading* reading = nullptr;
  double volt = 0.0;  ///< without its sign
  double ampere = 0.0;
  Estimate excess;      ///< over what the most that a good one has would drop [V]
  double limit = 0.0;   ///< that most [ohm]
  double copper = 0.0;  ///< what copper of that length has by itself [ohm]; 0 where the length was not measured
  bool less_than_copper = false;  ///< and the drop is too small for it
  Conformance p;
  Outcome outcome = Outcome::undecided;

  double ohms() const { return volt / ampere; }
};

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const WiringRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  std::optional<Estimate> length;  ///< as it was measured, else as it is rated [m]
  bool length_measured = false;
  std::optional<OhmsSeen> ohms;
  std::optional<DropSeen> drop;
  bool opened_and_closed = false;  ///< OL in one reading and a path in another
  bool ohms_jump = false;          ///< repeats of one reading lie farther apart than the meter's digits
  bool drop_jumps = false;         ///< the same of the volts under load

  Scene(const WiringRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  bool knows_limit() const { return ratings != nullptr && ratings->knows_limit(length.has_value()); }
  /// Most that a good one has, as warm as in that reading [ohm], with what length and warmth leave open. Needs
  /// `knows_limit`.
  Estimate limit_at(const PreparedReading& reading) const;
  /// Seen in its ohms, from end to end.
  bool ohms_come_and_go() const {
    return opened_and_closed || ohms_jump || (ohms && ohms->worst_apart > largest_disagreement);
  }
  bool comes_and_goes() const { return ohms_come_and_go() || drop_jumps; }
};

/// Least insulation that is asked of it [ohm].
double least_to_frame(const WiringRatings* ratings);

/// Below this current its load does not run (common practice, no source) [A].
inline constexpr double least_load_ampere = 0.05;

/// Whether a current flowed that is more than its own doubt.
bool has_current(const PreparedReading& reading);

/// Whether the reading is a drop that can be judged: live, or fed by a supply of its own with its ends off.
bool is_drop_under_load(const PreparedReading& reading);

inline AnyQuantity in_ohms(double value) { return {Dimension::resistance, value}; }
inline AnyQuantity in_volts(double value) { return {Dimension::voltage, value}; }
inline AnyQuantity in_amperes(double value) { return {Dimension::current, value}; }
inline AnyQuantity in_watts(double value) { return {Dimension::power, value}; }

}  // namespace ohmwright::wiring
