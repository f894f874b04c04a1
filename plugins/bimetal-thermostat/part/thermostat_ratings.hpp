#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/units.hpp>

#include "part/trip_point.hpp"

namespace ohmwright::bimetal_thermostat {

/// What its maker promises of the trip points: type 1 and type 2 action of IEC 60730-1.
enum class Action : std::uint8_t {
  unstated,  ///< taken as type 2: the ratings do state a tolerance
  type_1,    ///< tested for safety, not for its trip value: drift of it is a fact, not a breach
  type_2,    ///< tolerance of new parts and drift are tested
};

/// A link opens at most so far below its functioning temperature: +0/-10 K (IEC 60691, from memory).
inline constexpr double link_band_kelvin = 10.0;

/// A thermal link (IEC 60691) in the same housing: opens once, for good.
struct ThermalLink {
  Temperature functioning = Temperature::from_kelvin(0.0);  ///< T_f
  std::optional<Temperature> holding;                       ///< T_h: carries its current for long up to this
};

/// What is known of one thermostat.
struct ThermostatRatings {
  TripPoint opening;
  TripPoint closing;
  std::optional<Differential> differential;
  bool closing_from_differential = false;  ///< the closing point was not stated: opening less differential
  Action action = Action::unstated;
  std::optional<Current> rated_current;
  std::optional<Voltage> rated_voltage;
  std::optional<Resistance> contact_resistance;  ///< largest of a good closed contact
  std::optional<int> leads;
  std::optional<ThermalLink> link;
  bool unknown = false;  ///< nobody knows what is stamped on it: the figures span all that it may be

  bool promises_trip_points() const { return action != Action::type_1; }
  /// Thermostat and link in series behind two wires: the link cannot be read alone.
  bool is_two_wire_pair() const { return link && leads == 2; }
  bool link_has_own_leads() const { return link && leads != 2; }
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty.
std::optional<ThermostatRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::bimetal_thermostat
