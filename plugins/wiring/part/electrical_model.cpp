#include "part/electrical_model.hpp"

#include <ohmwright/component/fault_extents.hpp>

#include "rules/names.hpp"

namespace ohmwright::wiring {

namespace {

// How far each fault goes; assumed, no source.
constexpr double joint_from_ohms = 1.0;
/// Share of the time that one which comes and goes conducts.
constexpr double share_closed = 0.5;

/// A resistance between two ends [ohm].
struct Between {
  double low;
  double high;
};

/// From end to end of a sound one; nothing where its length is not known.
std::optional<Between> sound(const WiringRatings* ratings, const Situation& situation) {
  const std::optional<double> metres = situation.condition(lead_length);
  if (ratings == nullptr || !ratings->knows_limit(metres.has_value())) return std::nullopt;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const Temperature t = kelvin ? Temperature::from_kelvin(*kelvin) : Temperature::from_celsius(20.0);
  const double long_so = metres.value_or(ratings->length ? ratings->length->value() : 0.0);
  return Between{ratings->least(long_so, t), ratings->most(long_so, t)};
}

/// What a bad joint adds; nothing for other faults.
std::optional<Between> joint_of(std::uint16_t fault_mode) {
  if (fault_mode == fault_high_resistance) return Between{joint_from_ohms, fault_extents::bad_joint_to};
  if (fault_mode == fault_burnt_joint) return Between{fault_extents::burnt_joint_from, fault_extents::burnt_joint_to};
  return std::nullopt;
}

}  // namespace

ModelAnswer append_model(const WiringRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  const Element apart = open_between(end_1, frame);
  if (fault_mode == fault_open) {
    elements.insert(elements.end(), {open_between(end_1, end_2), apart});
    return ModelAnswer::stated;
  }
  const std::optional<Between> through = sound(ratings, situation);
  if (const std::optional<Between> joint = joint_of(fault_mode)) {
    const Between beside = through.value_or(Between{0.0, 0.0});
    elements.insert(elements.end(),
                    {resistance_between(end_1, end_2, joint->low + beside.low, joint->high + beside.high), apart});
    return ModelAnswer::stated;
  }
  if (!through) return ModelAnswer::unknown;
  if (fault_mode == fault_intermittent)
    elements.push_back(contact_between(end_1, end_2, through->low, through->high, share_closed));
  else
    elements.push_back(resistance_between(end_1, end_2, through->low, through->high));
  elements.push_back(fault_mode == fault_leaks
                         ? resistance_between(end_1, frame, fault_extents::leak_from, fault_extents::leak_to)
                         : apart);
  return ModelAnswer::stated;
}

}  // namespace ohmwright::wiring
