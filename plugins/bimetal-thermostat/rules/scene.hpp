#pragma once

#include <string_view>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>

#include "part/thermostat_ratings.hpp"
#include "rules/names.hpp"
#include "rules/trip_series.hpp"

namespace ohmwright::bimetal_thermostat {

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const ThermostatRatings* ratings;  ///< null: nothing is known of the part
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;
  TripSeries opening{opening_gap};
  TripSeries closing{closing_gap};
  /// One of the readings was cleanly open: what looks closed in the others is the contact and no path beside it.
  bool no_path_beside = false;

  /// Goes through the readings of the contact, in the order of time, and finds the trip points between them.
  Scene(const ThermostatRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out);

  /// Whether a reading that looks closed is to be believed.
  bool is_surely_of_contact(const PreparedReading& reading) const { return is_lead_off(reading) || no_path_beside; }
  /// It changed with no change of temperature.
  bool comes_and_goes() const { return opening.by_itself() + closing.by_itself() > 0; }
  bool sure(double probability) const { return probability >= settings.confidence; }
};

/// A reading of the contact, not live, not in circuit.
inline bool is_of_contact_alone(const PreparedReading& reading) {
  return reading.measurand == contact_state && !is_live(reading) && !is_in_circuit(reading);
}

inline AnyQuantity degrees(double kelvin) { return {Dimension::temperature, kelvin}; }
inline AnyQuantity kelvins(double value) { return {Dimension::temperature_difference, value}; }

}  // namespace ohmwright::bimetal_thermostat
