#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/locate/search.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "locate/readings.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// What `TESTPOINT[@SETUP]` reads. Throws InputError naming what there is.
locate::Measurement typed_measurement(std::string place, const Appliance& appliance);

/// `TESTPOINT[@SETUP]=VALUE` as a reading. Throws InputError naming what there is.
locate::TakenReading typed_test_reading(const std::string& word, const TypedReadings& how);

/// The readings of the file that --readings names, each in its circumstances, which `appliance` is given as set-ups.
/// Throws DocumentError for a bad file.
std::vector<locate::TakenReading> readings_of_file(const Arguments& arguments, Appliance& appliance, const Meter& meter,
                                                   UnitPreferences& units);

/// What --symptom, --no-symptom, --looked, --code, --thawed, --unplugged, --ran-well and --replaced say.
locate::Signs typed_signs(const Arguments& arguments, const Appliance& appliance);

/// Not typed with a call: the option under which a job passes on the room's temperature that the customer told.
inline constexpr std::string_view telephone_room = "room of the telephone";

/// What --zone says of a zone: its temperature, or that nobody measured it.
struct SaidOfZone {
  std::size_t zone = 0;
  std::optional<StatedValue> temperature;
};
/// ZONE=TEMPERATURE, or ZONE=unknown, which takes back what was said before. Throws InputError naming what there is.
SaidOfZone typed_zone(const std::string& word, const Appliance& appliance);

/// Throws InputError where --zone states one zone twice in one call, and not alike: nobody knows which is meant.
void refuse_zones_stated_twice(const Arguments& arguments);

/// The site as found, with what --zone and --state say of it; a zone that --zone does not name was not measured.
locate::Site typed_site(const Arguments& arguments, const Appliance& appliance, UnitPreferences& units);

/// Weights, repaired parts, how many faults at once, live steps.
locate::SearchSettings typed_settings(const Arguments& arguments, const Appliance& appliance);

/// Symptoms that faults or causes of this appliance show, and those that stop the search.
std::vector<std::string> symptoms_of(const Appliance& appliance);

}  // namespace ohmwright::cli
