#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::locate {

/// How a zone's temperature is known.
enum class ZoneKnowledge : std::uint8_t {
  by_file,             ///< nobody said it
  said,                ///< or brought about by a set-up that states it
  said_without_doubt,  ///< its ± is assumed
};

/// What a part that ran, or stood still under power, is warmer than its zone.
struct OwnHeat {
  std::size_t part = 0;
  double kelvin = 0.0;
};

/// What holds at the appliance while something is read: temperatures of its zones, states of its parts.
struct Site {
  std::vector<StatedValue> zone_temperatures;  ///< by zone
  std::vector<std::optional<TemperatureSpan>>
      not_measured;                             ///< by zone; empty for one that was measured, or is as warm as its room
  std::vector<std::vector<StateValue>> states;  ///< by part
  /// How parts may stand that a hand turns, where nobody said how they do: a timer runs on by itself.
  std::vector<SetState> states_not_said;
  std::vector<ZoneKnowledge> known;  ///< by zone
  std::optional<OwnHeat> own_heat;   ///< until a set-up chills or warms the part's zone
};

/// As cold and as warm as a room may be of which nobody said how warm it is: a cellar, a garage in a summer (common
/// practice, no source).
TemperatureSpan room_that_nobody_spoke_of();

/// The appliance as found, by its file, its zones as warm as the file says.
Site site_as_found(const Appliance& appliance);

/// What somebody said of a zone's temperature.
struct SaidTemperature {
  std::size_t zone = 0;
  StatedValue temperature;
  double usual_half_width = usual_doubt_kelvin;  ///< where it has no ± [K]
};

/// The same while a thermometer was held to no other zones than those said. One that is colder than its room may be as
/// cold as a coil gets that runs, and as warm as the room; one that a heater or a set-up warms may be as warm as after
/// a run. After a thaw nothing says that it is still as its file has it. And while nobody said how parts stand that a
/// set-up without power turns.
Site site_not_measured(const Appliance& appliance, bool was_thawed, std::span<const SaidTemperature> said = {});

/// The same with a part in that state, as somebody said.
Site with_state(Site site, const SetState& said);

/// Whether somebody said how warm a zone is.
inline bool is_said(const Site& site, std::size_t zone) {
  return !site.not_measured[zone] && site.known[zone] != ZoneKnowledge::by_file;
}

/// The zone that a set-up leaves another one as warm as, where nobody said how warm that is: a thawed coil its room.
std::optional<std::size_t> unsaid_room_after(const Appliance& appliance, const Site& site,
                                             std::optional<std::size_t> set_up, std::size_t zone);

/// The same after a set-up: what it chills, warms or turns. Without one, the site itself.
Site after_set_up(const Appliance& appliance, Site site, std::optional<std::size_t> set_up);

/// What a part is asked for at this site: its zone's temperature moved by `share` of its half-width (-1, 0, 1), its
/// states, the supply's volts, and what drives it.
///
/// Of a part's conditions those called part_temperature and line_voltage are filled in.
Situation situation_of(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       double share);

/// The same with its zone at that temperature [K]; nothing for a part in no zone.
Situation situation_at(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       std::optional<double> kelvin);

}  // namespace ohmwright::locate
