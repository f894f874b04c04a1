#include "part/electrical_model.hpp"

#include <optional>

#include <ohmwright/component/fault_extents.hpp>

#include "rules/names.hpp"

namespace ohmwright::fan_motor {

namespace {

// How far each fault goes; assumed, no source. Together they leave no gap: whatever a winding alone reads, from nothing
// to OL, is good or one of these.
constexpr double shorted_from_ohms = 0.0;  // leads that touch, too
constexpr double shorted_high_share = 0.97;
constexpr double joint_from_ohms = 3.0;
constexpr double blocked_current_share = 1.5;
constexpr double shorted_current_share = 2.0;

std::optional<Span> ohms_to_a_meter(const FanMotorRatings& ratings, const Situation& situation) {
  std::optional<Span> limits = ratings.winding_limits();
  if (!limits) return std::nullopt;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (!kelvin) return limits;
  const double factor =
      winding_factor(ratings.conductor_constant, ratings.reference_temperature, Temperature::from_kelvin(*kelvin));
  return Span{factor * limits->lower, factor * limits->upper};
}

/// V/I of a motor on the line, however it is made of resistance and inductance.
std::optional<Span> ohms_to_the_line(const FanMotorRatings& ratings, std::uint16_t fault_mode) {
  if (!ratings.voltage || !ratings.current) return std::nullopt;
  double share = 1.0;
  if (fault_mode == fault_seized || fault_mode == fault_blocked_by_ice) share = blocked_current_share;
  if (fault_mode == fault_shorted_turns) share = shorted_current_share;
  const double nominal = (*ratings.voltage / *ratings.current).value() / share;
  return Span{nominal / (1.0 + ratings.current_tolerance), nominal / (1.0 - ratings.current_tolerance)};
}

}  // namespace

ModelAnswer append_model(const FanMotorRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  const bool electronic = ratings != nullptr && ratings->is_electronic();
  if (ratings != nullptr && fault_mode == (electronic ? fault_shorted_turns : fault_dead_electronics))
    return ModelAnswer::not_applicable;
  if (fault_mode == fault_weak_capacitor && ratings != nullptr && ratings->construction != Construction::capacitor_run)
    return ModelAnswer::not_applicable;  // a shaded-pole motor has no capacitor
  const Element to_frame = fault_mode == fault_leaks
                               ? resistance_between(lead_1, frame, fault_extents::leak_from, fault_extents::leak_to)
                               : open_between(lead_1, frame);
  if (fault_mode == fault_open || fault_mode == fault_dead_electronics) {
    elements.insert(elements.end(), {open_between(lead_1, lead_2), to_frame});
    return ModelAnswer::stated;
  }
  if (ratings == nullptr) return ModelAnswer::unknown;
  const bool on_supply = situation.excitation != Excitation::ohmmeter;
  if (electronic && !on_supply) return ModelAnswer::unknown;  // an ohmmeter sees its electronics, which may be anything
  std::optional<Span> r = on_supply ? ohms_to_the_line(*ratings, fault_mode) : ohms_to_a_meter(*ratings, situation);
  if (!r) return ModelAnswer::unknown;
  if (!on_supply && fault_mode == fault_shorted_turns) r = Span{shorted_from_ohms, shorted_high_share * r->upper};
  if (fault_mode == fault_bad_joint) r = Span{r->lower + joint_from_ohms, r->upper + fault_extents::bad_joint_to};
  if (fault_mode == fault_burnt_joint)
    r = Span{r->lower + fault_extents::burnt_joint_from, r->upper + fault_extents::burnt_joint_to};
  elements.insert(elements.end(), {resistance_between(lead_1, lead_2, r->lower, r->upper), to_frame});
  return ModelAnswer::stated;
}

}  // namespace ohmwright::fan_motor
