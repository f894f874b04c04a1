#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::locate {

/// A zone that nobody measured: it may be as it was found, or anywhere on its way to the warmest place around.
struct WarmingUp {
  double to_kelvin = 0.0;
  double share_as_found = 0.5;  ///< probability that it is still as found [0…1] (assumed, no source)

  friend bool operator==(const WarmingUp&, const WarmingUp&) = default;
};

/// What holds at the appliance while something is read: temperatures of its zones, states of its parts.
struct Site {
  std::vector<StatedValue> zone_temperatures;        ///< by zone
  std::vector<std::optional<WarmingUp>> warming_up;  ///< by zone; empty for one that was measured, or is warm anyway
  std::vector<std::vector<StateValue>> states;       ///< by part

  friend bool operator==(const Site& a, const Site& b);
};

/// The appliance as found, by its file, its zones as warm as the file says.
Site site_as_found(const Appliance& appliance);

/// The same while nobody has held a thermometer to it: a zone that is colder than another may have warmed up as far as
/// that one. After a thaw nothing says that it is still as found.
Site site_not_measured(const Appliance& appliance, bool was_thawed);

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
