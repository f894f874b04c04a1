#include "rules/contact_grid.hpp"

namespace ohmwright::defrost_control {

PlaceIndex place_of(const PreparedReading& reading) {
  const std::optional<std::uint16_t> stated = reading.state(position);
  if (!stated) return anywhere;
  return *stated == position_run ? in_run : in_defrost;
}

ContactGrid::ContactGrid(const Evidence& evidence) {
  for (const PreparedReading& reading : evidence.readings())
    if (is_of_contact(reading) && !is_live(reading) && !is_in_circuit(reading)) take(reading);
}

void ContactGrid::take(const PreparedReading& reading) {
  const ContactSeen seen = contact_seen(reading);
  if (seen == ContactSeen::nothing) return;
  ContactState& state = states_[reading.measurand == defrost_contact ? of_defrost : of_run][place_of(reading)];
  const bool changed =
      state.seen != ContactSeen::nothing && ohmwright::is_not_closed(state.seen) != ohmwright::is_not_closed(seen);
  state = {seen, is_lead_off(reading), state.contradicted || changed};
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
