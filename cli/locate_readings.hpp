#pragma once

#include <optional>
#include <string>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// How the values of readings are typed.
struct TypedReadings {
  const Appliance& appliance;
  const Meter& meter;
  UnitPreferences& units;                 ///< gets the units that were typed
  std::optional<AnyQuantity> range = {};  ///< of --range: where OL was typed without a range of its own
};

/// A reading from what was typed of its value: "32.1", "8k", "OL", "OL on 20k", "> 20k", "open", of volts "3V on
/// low-impedance". A bare number is in
/// ohms, volts or amperes as the test point is. Throws InputError, `label` in it where the range cannot be.
locate::TakenReading typed_reading(const locate::Measurement& measurement, const std::string& text,
                                   const std::string& label, const TypedReadings& how);

/// A range alone, of ohms.
AnyQuantity typed_range(const std::string& text);

/// What --range says; the range is that of the meter, as for each reading.
std::optional<AnyQuantity> range_option(const Arguments& arguments, const Meter& meter);

/// Whether it is OL and somebody has to be asked on which range.
bool wants_a_range(const locate::TakenReading& reading, const TypedReadings& how);

}  // namespace ohmwright::cli
