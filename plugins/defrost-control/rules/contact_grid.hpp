#pragma once

#include <array>
#include <cstddef>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/reading_questions.hpp>

#include "rules/names.hpp"

namespace ohmwright::defrost_control {

/// Of which contact.
enum ContactIndex : std::size_t { of_defrost, of_run };
/// At which position of the cam, or of the board's program.
enum PlaceIndex : std::size_t { in_run, in_defrost, anywhere };

/// What was seen of one contact at one position.
struct ContactState {
  ContactSeen seen = ContactSeen::nothing;
  bool lead_off = false;      ///< nothing lay beside it: then closed is closed
  bool contradicted = false;  ///< read closed once and not closed another time

  bool is_closed() const { return seen == ContactSeen::closed; }
  bool is_surely_closed() const { return is_closed() && lead_off && !contradicted; }
  bool is_not_closed() const { return ohmwright::is_not_closed(seen) && !contradicted; }
};

/// All that was read of both contacts alone, unpowered: the last reading of each at each position.
class ContactGrid {
 public:
  explicit ContactGrid(const Evidence& evidence);

  const ContactState& at(ContactIndex contact, PlaceIndex place) const { return states_[contact][place]; }
  /// Whether anything of either contact was read alone.
  bool any() const;
  bool any_of(bool (*predicate)(const ContactState&)) const;

 private:
  void take(const PreparedReading& reading);

  std::array<std::array<ContactState, 3>, 2> states_;
};

/// The position at which a reading was taken.
PlaceIndex place_of(const PreparedReading& reading);

inline bool is_of_contact(const PreparedReading& reading) {
  return reading.measurand == defrost_contact || reading.measurand == run_contact;
}

}  // namespace ohmwright::defrost_control
