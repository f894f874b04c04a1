#include "part/electrical_model.hpp"

#include <optional>

#include "descriptor/descriptor.hpp"
#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// Least ohms of any closed contact, so that no network gets a conductance without end (assumed).
constexpr double least_contact_ohms = 0.01;
/// How far a drifted part is off, and what a bad contact has (assumed, no source).
constexpr double drift_kelvin = 8.0;
constexpr double bad_contact_from_ohms = 0.5;
constexpr double bad_contact_to_ohms = 50.0;

Element open_between(TerminalIndex from, TerminalIndex to) {
  Element made;
  made.type = ElementType::open;
  made.from = from;
  made.to = to;
  return made;
}

Element ohms_between(TerminalIndex from, TerminalIndex to, double low, double high) {
  Element made;
  made.type = ElementType::resistance;
  made.from = from;
  made.to = to;
  made.value_in_si = 0.5 * (low + high);
  made.relative_half_width = (high - low) / (high + low);
  return made;
}

std::uint16_t history_in(const Situation& situation) {
  for (const StateValue& set : situation.states)
    if (set.state == history) return set.value;
  return history_unknown;
}

double drift_of(std::uint16_t fault_mode) {
  if (fault_mode == fault_drifted_high) return drift_kelvin;
  return fault_mode == fault_drifted_low ? -drift_kelvin : 0.0;
}

/// Closed or open; nothing where that cannot be told.
std::optional<bool> contact_is_closed(const ThermostatRatings* ratings, std::uint16_t fault_mode,
                                      const Situation& situation) {
  if (fault_mode == fault_welded) return true;
  if (fault_mode == fault_stuck_open) return false;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (ratings == nullptr || !kelvin) return std::nullopt;
  const auto drift = TemperatureDifference::from_value(drift_of(fault_mode));
  return is_closed_at(ratings->opening.nominal + drift, ratings->closing.nominal + drift,
                      Temperature::from_kelvin(*kelvin), history_in(situation));
}

}  // namespace

bool is_closed_at(Temperature opening, Temperature closing, Temperature t, std::uint16_t history_value) {
  return t < (history_value == warming ? opening : closing);
}

void append_model(const ThermostatRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                  std::vector<Element>& elements) {
  const bool has_limit = ratings != nullptr && ratings->contact_resistance;
  const double limit = has_limit ? ratings->contact_resistance->value() : usual_contact_limit_ohms;
  const bool link_opened = fault_mode == fault_link_open;
  const bool pair = ratings != nullptr && ratings->is_two_wire_pair();
  if (link_opened && pair) {
    elements.push_back(open_between(contact_1, contact_2));
    return;
  }
  if (const std::optional<bool> closed = contact_is_closed(ratings, fault_mode, situation)) {
    if (!*closed)
      elements.push_back(open_between(contact_1, contact_2));
    else if (fault_mode == fault_bad_contact)
      elements.push_back(ohms_between(contact_1, contact_2, bad_contact_from_ohms, bad_contact_to_ohms));
    else
      elements.push_back(ohms_between(contact_1, contact_2, least_contact_ohms, limit));
  }
  const bool has_link = ratings != nullptr && ratings->link_has_own_leads();
  if (link_opened && !pair)
    elements.push_back(open_between(link_1, link_2));
  else if (has_link)
    elements.push_back(ohms_between(link_1, link_2, least_contact_ohms, limit));
}

}  // namespace ohmwright::bimetal_thermostat
