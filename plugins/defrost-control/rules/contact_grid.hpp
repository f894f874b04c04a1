#pragma once

#include <array>
#include <cstddef>
#include <optional>

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
  bool resists = false;       ///< conducts, but its ohms are surely more than a good closed contact has
  double ohms = 0.0;          ///< the test leads subtracted [ohm], where ohms were read

  bool is_closed() const { return seen == ContactSeen::closed; }
  bool is_surely_closed() const { return is_closed() && lead_off && !contradicted && !resists; }
  bool is_not_closed() const { return ohmwright::is_not_closed(seen) && !contradicted; }
};

/// All that was read of both contacts alone, unpowered: the last reading of each at each position.
class ContactGrid {
 public:
  /// `most_ohms` is what a good closed contact may have; a reading is above it where P(above) is `confidence` or more,
  /// its leads, their doubt and the last digits of the meter considered.
  ContactGrid(const Evidence& evidence, double most_ohms, double confidence);

  const ContactState& at(ContactIndex contact, PlaceIndex place) const { return states_[contact][place]; }
  /// Whether anything of either contact was read alone.
  bool any() const;
  bool any_of(bool (*predicate)(const ContactState&)) const;
  /// The last reading on a range that tells no contact, or null.
  const PreparedReading* refused() const { return refused_; }
  /// The highest ohms of that contact where it is closed and resists [ohm]; nothing where it does not.
  std::optional<double> resisting(ContactIndex contact) const;
  /// A load of amperes has proved that contact good: the ohmmeter's small current does not break a film.
  void clear_under_load(ContactIndex contact);

 private:
  void take(const PreparedReading& reading, bool resists);

  std::array<std::array<ContactState, 3>, 2> states_;
  const PreparedReading* refused_ = nullptr;
};

/// The position at which a reading was taken.
PlaceIndex place_of(const PreparedReading& reading);

inline bool is_of_contact(const PreparedReading& reading) {
  return reading.measurand == defrost_contact || reading.measurand == run_contact;
}

}  // namespace ohmwright::defrost_control
