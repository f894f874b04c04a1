#pragma once

#include <cstdint>

#include <ohmwright/component/evidence.hpp>

namespace ohmwright {

/// What a reading across a contact says of it. A path beside it can only lower the ohms: what is not closed in circuit
/// is not closed, and what looks closed there may be that path.
enum class ContactSeen : std::uint8_t {
  nothing,  ///< no reading of a contact, no number, or a range that cannot tell
  closed,   ///< up to 10 ohm, the leads subtracted, or "closed", or a beep
  poor,     ///< up to 1 kohm: neither a good contact nor an open one
  leaking,  ///< up to 1 Mohm: not closed, but something conducts beside it
  open,     ///< past that, or over range
};

// Where the one ends and the next begins [ohm]: common practice, no source.
inline constexpr double closed_up_to_ohms = 10.0;
inline constexpr double poor_up_to_ohms = 1e3;
inline constexpr double leaking_up_to_ohms = 1e6;

/// By the ohms across it [ohm], the test leads subtracted.
OHMWRIGHT_CORE_API ContactSeen contact_seen(double ohms);
/// By what the instrument showed.
OHMWRIGHT_CORE_API ContactSeen contact_seen(const PreparedReading& reading);

inline bool is_not_closed(ContactSeen seen) { return seen == ContactSeen::leaking || seen == ContactSeen::open; }

}  // namespace ohmwright
