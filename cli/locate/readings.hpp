#pragma once

#include <optional>
#include <string>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// Whether a part of that kind senses something: by its ohms, or by a contact.
bool senses(const Descriptor& descriptor);

/// Whether it senses and is read by its ohms alone: what has a contact switches the mains.
bool is_sensor(const Descriptor& descriptor);

/// How the values of readings are typed.
struct TypedReadings {
  const Appliance& appliance;
  const Meter& meter;
  UnitPreferences& units;                 ///< gets the units that were typed
  std::optional<AnyQuantity> range = {};  ///< of --range: where OL was typed without a range of its own
  bool was_kept = false;                  ///< a word of a book, which no refusal may keep from being read
};

/// A reading from what was typed of its value: "32.1", "8k", "OL", "OL on 20k", "> 20k", "open", of volts "3V on
/// low-impedance". A bare number is in ohms, volts or amperes as the test point is, and refused where a k may be
/// forgotten. Throws InputError, `label` in it, where the range cannot be or no meter shows as much.
locate::TakenReading typed_reading(const locate::Measurement& measurement, const std::string& text,
                                   const std::string& label, const TypedReadings& how);

/// Throws InputError where no instrument of the trade shows as much.
void refuse_what_no_meter_shows(const Observed& observed, const std::string& label);

/// A range alone, of ohms.
AnyQuantity typed_range(const std::string& text);

/// What --range says; the range is that of the meter, as for each reading.
std::optional<AnyQuantity> range_option(const Arguments& arguments, const Meter& meter);

/// Whether it is OL and somebody has to be asked on which range.
bool wants_a_range(const locate::TakenReading& reading, const TypedReadings& how);

}  // namespace ohmwright::cli
