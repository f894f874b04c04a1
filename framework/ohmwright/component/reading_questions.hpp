#pragma once

#include <algorithm>
#include <cstdint>
#include <string_view>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

// What rules of every kind ask of a prepared reading.

inline bool is_live(const PreparedReading& reading) { return reading.supply == Supply::live; }
inline bool is_in_circuit(const PreparedReading& reading) { return reading.connection == Connection::in_circuit; }
inline bool is_lead_off(const PreparedReading& reading) { return reading.connection == Connection::lead_off; }
inline bool shows_more_than_range(const PreparedReading& reading) {
  return reading.shown == Shown::over_range || reading.shown == Shown::contact_open;
}

/// Whether any reading is one of which `predicate` is true.
template <class Predicate>
bool any_of(const Evidence& evidence, Predicate predicate) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), predicate);
}

/// How low a reading has to be to be no more than the test leads.
struct LeadReach {
  double coarsest_ohms = 1.0;  ///< a meter that is off by more, on a range of megohms, tells no short from a part
  double smallest_ohms = 0.0;  ///< at most this counts as no more than the leads whatever they have
};

/// Whether the reading lies within the leads' own resistance and what the meter may be off [ohm]: two wires measure
/// nothing but their contacts there. False where the meter may be off by more than `reach.coarsest_ohms`.
OHMWRIGHT_CORE_API bool is_within_lead_resistance(const PreparedReading& reading, const LeadReach& reach = {});

/// The last reading of a measurand that shows a value, or null.
OHMWRIGHT_CORE_API const PreparedReading* last_value(const Evidence& evidence, std::uint16_t measurand);

/// Whether a reading of `swapped`, the same with the probes the other way round, agrees with `reading`: within twice
/// the errors of both and a share of the value [0…1]. Else something in the circuit drives the meter: a charged
/// capacitor, a powered board.
OHMWRIGHT_CORE_API bool swapped_probes_agree(const Evidence& evidence, const PreparedReading& reading,
                                             std::uint16_t swapped, double share);

/// So many ohms, to tell them.
inline AnyQuantity ohms(double value) { return {Dimension::resistance, value}; }

/// Adds a named value to a finding or an advice; one in braces is a quantity.
template <class Told, class Value = AnyQuantity>
void tell(Told& told, std::string_view name, Value value) {
  told.arguments.push_back(FindingArgument{name, value});
}

}  // namespace ohmwright
