#pragma once

#include <cstdint>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright::defrost_control {

/// What a reading across a contact says of it. A path beside it can only lower the ohms: what is not closed in circuit
/// is not closed, and what looks closed there may be that path.
enum class ContactSeen : std::uint8_t {
  nothing,  ///< not read, or no number
  closed,   ///< up to 10 ohm, the leads subtracted, or "closed", or a beep
  poor,     ///< up to 1 kohm: neither a good contact nor an open one
  leaking,  ///< up to 1 Mohm: not closed, but something conducts beside it
  open,     ///< past that, or over range
};

// Where the one ends and the next begins [ohm]: common practice, no source.
inline constexpr double closed_up_to_ohms = 10.0;
inline constexpr double poor_up_to_ohms = 1e3;
inline constexpr double leaking_up_to_ohms = 1e6;

ContactSeen contact_seen(double ohms);
ContactSeen contact_seen(const PreparedReading& reading);

inline bool is_not_closed(ContactSeen seen) { return seen == ContactSeen::leaking || seen == ContactSeen::open; }

inline bool is_live(const PreparedReading& reading) { return reading.supply == Supply::live; }
inline bool is_in_circuit(const PreparedReading& reading) { return reading.connection == Connection::in_circuit; }
inline bool is_lead_off(const PreparedReading& reading) { return reading.connection == Connection::lead_off; }
inline bool is_over_range(const PreparedReading& reading) {
  return reading.shown == Shown::over_range || reading.shown == Shown::contact_open;
}

}  // namespace ohmwright::defrost_control
