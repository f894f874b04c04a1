#include "part/electrical_model.hpp"

#include <optional>

#include <ohmwright/component/fault_extents.hpp>

#include "descriptor/descriptor.hpp"
#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// Least ohms of any closed contact, so that no network gets a conductance without end (assumed).
constexpr double least_contact_ohms = 0.01;
/// How far a drifted part is off, and what a bad contact has (assumed, no source).
constexpr double drift_kelvin = 8.0;
constexpr double bad_contact_from_ohms = 0.5;

double drift_of(std::uint16_t fault_mode) {
  if (fault_mode == fault_drifted_high) return drift_kelvin;
  return fault_mode == fault_drifted_low ? -drift_kelvin : 0.0;
}

/// Share of such parts that are closed; nothing where that cannot be told.
std::optional<double> share_closed(const ThermostatRatings* ratings, std::uint16_t fault_mode,
                                   const Situation& situation) {
  if (fault_mode == fault_welded) return 1.0;
  if (fault_mode == fault_stuck_open) return 0.0;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (ratings == nullptr || !kelvin) return std::nullopt;
  // A part whose trip points lie 8 K higher is at 20 °C what a good one is at 12 °C.
  const auto drift = TemperatureDifference::from_value(drift_of(fault_mode));
  return share_closed_at(*ratings, Temperature::from_kelvin(*kelvin) - drift, situation);
}

Element contact_of(double ohms_limit, std::uint16_t fault_mode, double share) {
  if (share <= 0.0) return open_between(contact_1, contact_2);
  if (fault_mode == fault_bad_contact)
    return contact_between(contact_1, contact_2, bad_contact_from_ohms, fault_extents::bad_joint_to, share);
  if (fault_mode == fault_burnt_contact)
    return contact_between(contact_1, contact_2, fault_extents::burnt_joint_from, fault_extents::burnt_joint_to, share);
  return contact_between(contact_1, contact_2, least_contact_ohms, ohms_limit, share);
}

}  // namespace

double share_closed_at(const ThermostatRatings& ratings, Temperature t, const Situation& situation) {
  const double from_cold = ratings.opening.share_above(t);
  const double from_warm = ratings.closing.share_above(t);
  const std::optional<std::uint16_t> came = situation.state(history);
  if (came == warming) return from_cold;
  if (came == cooling) return from_warm;
  return 0.5 * (from_cold + from_warm);
}

ModelAnswer append_model(const ThermostatRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  const bool pair = ratings != nullptr && ratings->is_two_wire_pair();
  const bool has_link = ratings != nullptr && ratings->link_has_own_leads();
  const bool link_opened = fault_mode == fault_link_open;
  if (link_opened && ratings == nullptr) return ModelAnswer::unknown;
  if (link_opened && !pair && !has_link) return ModelAnswer::not_applicable;
  if (link_opened && pair) {
    elements.push_back(open_between(contact_1, contact_2));
    return ModelAnswer::stated;
  }
  const std::optional<double> share = share_closed(ratings, fault_mode, situation);
  if (!share) return ModelAnswer::unknown;
  const bool has_limit = ratings != nullptr && ratings->contact_resistance;
  const double limit = has_limit ? ratings->contact_resistance->value() : usual_contact_limit_ohms;
  elements.push_back(contact_of(limit, fault_mode, *share));
  if (has_link)
    elements.push_back(link_opened ? open_between(link_1, link_2)
                                   : resistance_between(link_1, link_2, least_contact_ohms, limit));
  return ModelAnswer::stated;
}

}  // namespace ohmwright::bimetal_thermostat
