#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright {

/// What an instrument showed at a test point, in the circumstances that its file states.
struct StatedReading {
  std::size_t test_point = 0;
  std::optional<std::size_t> set_up;
  std::vector<SetState> states;              ///< that differ from those found and those of the set-up
  std::vector<SetTemperature> temperatures;  ///< likewise
  Observed observed = OverRange{};
  std::string note;
  bool low_impedance = false;        ///< volts on the meter's low-impedance input
  std::optional<AnyQuantity> range;  ///< that was set on the meter, where it is stated
  std::string label;                 ///< "heater-plug in site.json, line 4"
};

/// The readings that a document holds: one that people wrote (schemas/appliance-readings.schema.json), or what locate
/// gave as JSON, of which everything else is left unread.
///
/// Throws DocumentError with all that is wrong, names that were probably meant included.
std::vector<StatedReading> read_appliance_readings(const Document& document, const Appliance& appliance);

/// The set-up in which a reading was taken. Circumstances that no set-up of the file is become one of their own, added
/// behind those, which no step offers.
std::optional<std::size_t> circumstances_of(const StatedReading& reading, Appliance& appliance);

/// Adds the set-up "cooled" to an appliance with a part that warms by running: it stood unplugged for half an hour, so
/// that a winding is no warmer than what lies around it. No search offers it of itself, but where a warm part may have
/// read so. Nothing where the file has one of that name.
void add_cooling(Appliance& appliance);

}  // namespace ohmwright
