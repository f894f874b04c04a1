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

/// The same ends for a kind whose contacts are others [ohm], rising. Where the last two are one, none is `leaking`.
struct ContactEndsInOhms {
  double closed_up_to = closed_up_to_ohms;
  double poor_up_to = poor_up_to_ohms;
  double leaking_up_to = leaking_up_to_ohms;
};

/// By the ohms across it [ohm], the test leads subtracted.
OHMWRIGHT_CORE_API ContactSeen contact_seen(double ohms, const ContactEndsInOhms& ends = {});
/// By what the instrument showed.
OHMWRIGHT_CORE_API ContactSeen contact_seen(const PreparedReading& reading, const ContactEndsInOhms& ends = {});

inline bool is_not_closed(ContactSeen seen) { return seen == ContactSeen::leaking || seen == ContactSeen::open; }

}  // namespace ohmwright
