#include "rules/contact_grid.hpp"

#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_control {

PlaceIndex place_of(const PreparedReading& reading) {
  const std::optional<std::uint16_t> stated = reading.state(position);
  if (!stated) return anywhere;
  return *stated == position_run ? in_run : in_defrost;
}

ContactGrid::ContactGrid(const Evidence& evidence, double most_ohms, double confidence) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_of_contact(reading) || is_live(reading) || is_in_circuit(reading)) continue;
    const bool resists = reading.shown == Shown::value &&
                         probability_between(reading.value, evidence.sources(), most_ohms, infinity) >= confidence;
    take(reading, resists);
  }
}

void ContactGrid::take(const PreparedReading& reading, bool resists) {
  const ContactSeen seen = contact_seen(reading);
  if (seen == ContactSeen::nothing) {
    refused_ = &reading;
    return;
  }
  ContactState& state = states_[reading.measurand == defrost_contact ? of_defrost : of_run][place_of(reading)];
  const bool changed =
      state.seen != ContactSeen::nothing && ohmwright::is_not_closed(state.seen) != ohmwright::is_not_closed(seen);
  const double read = reading.shown == Shown::value ? reading.value.value() : 0.0;
  state = {seen, is_lead_off(reading), state.contradicted || changed, resists && seen == ContactSeen::closed, read};
}

std::optional<double> ContactGrid::resisting(ContactIndex contact) const {
  std::optional<double> highest;
  for (const ContactState& state : states_[contact])
    if (state.resists && (!highest || state.ohms > *highest)) highest = state.ohms;
  return highest;
}

void ContactGrid::clear_under_load(ContactIndex contact) {
  for (ContactState& state : states_[contact]) state.resists = false;
}

bool ContactGrid::any() const {
  return any_of([](const ContactState& state) { return state.seen != ContactSeen::nothing; });
}

bool ContactGrid::any_of(bool (*predicate)(const ContactState&)) const {
  for (const auto& row : states_)
    for (const ContactState& state : row)
      if (predicate(state)) return true;
  return false;
}

}  // namespace ohmwright::defrost_control
