#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/uncertainty/fusion.hpp>

#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"
#include "rules/plug_volts.hpp"

namespace ohmwright::fan_motor {

inline bool is_ohms(const PreparedReading& reading) { return reading.measurand == winding; }

/// Ohms of a winding, be it between two leads or between two of three terminals.
inline bool is_of_a_winding(const PreparedReading& reading) {
  return reading.measurand == winding || reading.measurand == common_run || reading.measurand == common_start ||
         reading.measurand == start_run;
}

/// More than this is no fan motor's winding (common practice, no source) [ohm].
inline constexpr double highest_of_any_winding = 20e3;

/// Ohms of the winding at the reference temperature of its ratings, fused of all usable readings.
struct WindingOhms {
  Estimate ohms;
  double read_ohms = 0.0;    ///< of the last reading, as it was
  double read_kelvin = 0.0;  ///< where that was
  std::size_t count = 0;
  bool stated_off = true;    ///< every one of them was read with a lead off
  double worst_apart = 0.0;  ///< between two of them, in standard uncertainties
};

/// How fast it turns [rad/s].
struct Turning {
  const PreparedReading* reading = nullptr;
  Estimate speed;
};

/// What its tachometer says, held against what was seen of it.
enum class TachSays : std::uint8_t {
  nothing_else,          ///< not read, or as its speed has it
  silent,                ///< no pulses, and whether it turns was not said
  silent_while_turning,  ///< no pulses, and it was seen to turn
  pulses_while_still,
  another_speed,
};

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const FanMotorRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  std::optional<WindingOhms> wound;
  std::optional<Turning> turning;  ///< a tachometer without pulses does not say that it stands still
  TachSays tach_says = TachSays::nothing_else;
  double jumping = 0.0;  ///< widest scatter of repeated ohms that jump, as a share of them; 0: none jump
  PlugVolts plug;
  /// What was said of the frequency it runs on (--hz), of a motor for another one; empty: it is as rated, or nobody
  /// said.
  std::optional<Frequency> other_frequency;

  Scene(const FanMotorRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  bool stands_still() const;
  /// Its speed was given with a minus, which no tachometer shows.
  bool turns_by_a_minus() const;
  /// Its tachometer and what was seen of it cannot both be right.
  bool tach_contradicts() const { return tach_says > TachSays::silent; }
  bool is_electronic() const { return ratings != nullptr && ratings->is_electronic(); }
  /// The field of an induction motor turns as its frequency does: that share of the rated one. 1 where it is as rated.
  double share_of_rated_frequency() const;
  /// What its ratings say of its speed, moved to the frequency that it runs on [rad/s].
  std::optional<Span> speed_limits() const;
  std::optional<RotationalSpeed> synchronous() const;
  bool readings_disagree() const { return wound && wound->worst_apart > largest_disagreement; }
};

/// Whether the reading is no more than the test leads, told by a meter fine enough to know such a winding from them.
bool is_within_leads(const FanMotorRatings* ratings, const PreparedReading& reading);

/// Whether the reading is a value that no winding has, of one read alone and dead.
inline bool is_past_any_winding(const PreparedReading& reading) {
  return is_of_a_winding(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading) &&
         reading.value.value() - 2.0 * reading.value.standard_uncertainty() > highest_of_any_winding;
}

/// Slower than this it stands still: a wheel that is blown round turns so [rad/s] (30 rpm).
inline constexpr double still_below = 3.2;

/// Warmer than this a thermal protector in the motor may be open, and close again when it has cooled [K].
inline constexpr double protector_may_open_kelvin = Temperature::kelvin_at_zero_celsius + 60.0;

/// Its temperature was given with the reading, and no protector is open there.
inline bool is_said_cool(const PreparedReading& reading) {
  const Estimate* temperature = reading.condition(part_temperature);
  return temperature != nullptr && temperature->value() <= protector_may_open_kelvin;
}

/// Coil and ducts were said to be clear, its wheel free and tight: nothing takes its load away.
bool is_said_clear(const Scene& scene);

/// Somebody looked, and it turned; how fast was not read.
bool is_said_turning(const Scene& scene);

/// It was seen to turn, by its speed, the pulses of its tachometer, or because somebody said so.
bool is_seen_turning(const Scene& scene);

/// The {frequency} it was said to run on, and the {made_for} one; nothing where it is as rated.
void tell_frequencies(const Scene& scene, Finding& finding);

/// The {volts} at its plug, and the {rated} ones.
void tell_volts(const Scene& scene, Finding& finding);

inline AnyQuantity volts(double value) { return {Dimension::voltage, value}; }
inline AnyQuantity amperes(double value) { return {Dimension::current, value}; }
inline AnyQuantity turns(double value) { return {Dimension::rotational_speed, value}; }
inline AnyQuantity degrees(double kelvin) { return {Dimension::temperature, kelvin}; }

}  // namespace ohmwright::fan_motor
