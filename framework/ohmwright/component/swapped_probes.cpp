#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string_view>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/swapped_probes.hpp>

namespace ohmwright {

namespace {

/// In circuit a difference may have its reasons there, and the kind's own rule asks for it.
bool is_dead_and_not_in_circuit(const PreparedReading& reading) { return !is_live(reading) && !is_in_circuit(reading); }

bool is_same_where_both_are_said(const PreparedReading& a, const PreparedReading& b) {
  if (a.moisture != b.moisture && a.moisture != Moisture::unstated && b.moisture != Moisture::unstated) return false;
  for (const StateValue& set : a.states)
    if (b.state(set.state).value_or(set.value) != set.value) return false;
  for (const PreparedCondition& condition : a.conditions) {
    const Estimate* other = b.condition(condition.condition);
    // Not within their doubt: a sensor does read otherwise one kelvin farther.
    if (other != nullptr && other->value() != condition.value.value()) return false;
  }
  return true;
}

bool shows_a_contact(const PreparedReading& reading) {
  return reading.shown == Shown::contact_open || reading.shown == Shown::contact_closed;
}

bool read_the_same(const PreparedReading& a, const PreparedReading& b) {
  constexpr double share = 0.02;
  constexpr double probe_contacts_ohms = 1.0;
  if (shows_more_than_range(a) && shows_more_than_range(b)) return true;
  if (shows_a_contact(a) || shows_a_contact(b)) return contact_seen(a) == contact_seen(b);
  const ContactSeen seen = contact_seen(a);
  if (seen == ContactSeen::open && contact_seen(b) == seen) return true;  // megohms beside OL: what hangs in the air
  if (shows_more_than_range(a) || shows_more_than_range(b)) return false;
  Estimate difference = a.value;
  difference.add_scaled(b.value, -1.0);
  const double allowed =
      2.0 * difference.standard_uncertainty() + std::max(share * std::abs(a.value.value()), probe_contacts_ohms);
  return std::abs(difference.value()) <= allowed;
}

}  // namespace

std::uint16_t unswapped(const Descriptor& descriptor, std::uint16_t measurand) {
  constexpr std::string_view ending = "_swapped";
  const std::string_view id = descriptor.measurands[measurand].id;
  return id.ends_with(ending) ? index_of(descriptor.measurands, id.substr(0, id.size() - ending.size())) : not_found;
}

std::vector<SwappedPair> swapped_that_contradict(const Descriptor& descriptor,
                                                 std::span<const PreparedReading> readings) {
  std::vector<SwappedPair> contradicting;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const std::uint16_t plain = unswapped(descriptor, readings[i].measurand);
    if (plain == not_found || !is_dead_and_not_in_circuit(readings[i])) continue;
    std::vector<SwappedPair> of_this_one;
    bool agrees = false;
    for (std::size_t j = 0; j < readings.size(); ++j) {
      if (readings[j].measurand != plain || !is_dead_and_not_in_circuit(readings[j])) continue;
      if (!is_same_where_both_are_said(readings[j], readings[i])) continue;
      agrees = agrees || read_the_same(readings[j], readings[i]);
      of_this_one.push_back({static_cast<std::uint16_t>(j), static_cast<std::uint16_t>(i)});
    }
    if (!agrees) contradicting.insert(contradicting.end(), of_this_one.begin(), of_this_one.end());
  }
  return contradicting;
}

}  // namespace ohmwright
