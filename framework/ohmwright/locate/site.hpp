#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::locate {

/// What holds at the appliance while something is read: temperatures of its zones, states of its parts.
struct Site {
  std::vector<StatedValue> zone_temperatures;   ///< by zone
  std::vector<std::vector<StateValue>> states;  ///< by part

  friend bool operator==(const Site& a, const Site& b);
};

/// The appliance as found, by its file.
Site site_as_found(const Appliance& appliance);

/// The same after a set-up: what it chills, warms or turns. Without one, the site itself.
Site after_set_up(const Appliance& appliance, Site site, std::optional<std::size_t> set_up);

/// What a part is asked for at this site: its zone's temperature moved by `share` of its half-width (-1, 0, 1), its
/// states, the supply's volts, and what drives it.
///
/// Of a part's conditions those called part_temperature and line_voltage are filled in.
Situation situation_of(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       double share);

}  // namespace ohmwright::locate
