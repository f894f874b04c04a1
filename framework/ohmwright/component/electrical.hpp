#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright {

/// What lies between two terminals of a part.
enum class ElementType : std::uint8_t {
  resistance,
  capacitance,
  inductance,
  voltage_source,
  open,     ///< no path
  closed,   ///< one point
  contact,  ///< `value_in_si` ohms while it is closed, else open
};

/// One element of a part's electrical model.
struct Element {
  ElementType type = ElementType::resistance;
  /// Index into `Descriptor::terminals`; an index past them is a point within the part, which no probe can reach.
  std::uint16_t from = 0;
  std::uint16_t to = 0;
  double value_in_si = 0.0;          ///< ohm, farad, henry or volt
  double relative_half_width = 0.0;  ///< tolerance of the value between good parts, rectangular
  double probability_closed = 1.0;   ///< of a contact: share of such parts that are closed here [0…1]
};

/// A resistance that lies between `low` and `high` in good parts [ohm].
inline Element resistance_between(std::uint16_t from, std::uint16_t to, double low, double high) {
  Element made;
  made.from = from;
  made.to = to;
  made.value_in_si = 0.5 * (low + high);
  made.relative_half_width = (high - low) / (high + low);
  return made;
}

/// A contact of `low` to `high` ohms while it is closed, which it is with that probability.
inline Element contact_between(std::uint16_t from, std::uint16_t to, double low, double high,
                               double probability_closed) {
  Element made = resistance_between(from, to, low, high);
  made.type = ElementType::contact;
  made.probability_closed = probability_closed;
  return made;
}

inline Element open_between(std::uint16_t from, std::uint16_t to) {
  Element made;
  made.type = ElementType::open;
  made.from = from;
  made.to = to;
  return made;
}

inline Element closed_between(std::uint16_t from, std::uint16_t to) {
  Element made = open_between(from, to);
  made.type = ElementType::closed;
  return made;
}

/// What a part can say of its elements.
enum class ModelAnswer : std::uint8_t {
  stated,          ///< the elements were appended
  unknown,         ///< ratings or situation do not say enough: what lies between the terminals may be anything
  not_applicable,  ///< this part cannot fail in that way: a thermostat without a link has no link to open
};

/// What drives the part while it is measured.
enum class Excitation : std::uint8_t {
  ohmmeter,            ///< a meter's small direct current, the supply cut
  direct_supply,       ///< a direct-current supply
  alternating_supply,  ///< the line
};

/// A value of a condition, without errors: for expectations and electrical models.
struct ConditionValue {
  std::uint16_t condition = not_found;
  double value_in_si = 0.0;
};

/// A state that is set: indices into `Descriptor::states` and its values.
struct StateValue {
  std::uint16_t state = not_found;
  std::uint16_t value = 0;
};

/// Most conditions and states that a kind can declare, and so that a situation or a reading carries.
inline constexpr std::size_t most_conditions = 6;
inline constexpr std::size_t most_states = 4;

/// The situation for which a model or an expectation is asked. Owns its values.
struct Situation {
  Situation() = default;
  /// No more values than `most_conditions` and `most_states`.
  Situation(std::span<const ConditionValue> of_conditions, std::span<const StateValue> of_states = {})
      : conditions(of_conditions.begin(), of_conditions.end()), states(of_states.begin(), of_states.end()) {}

  boost::container::static_vector<ConditionValue, most_conditions> conditions;
  boost::container::static_vector<StateValue, most_states> states;
  Excitation excitation = Excitation::ohmmeter;

  std::optional<double> condition(std::uint16_t index) const {
    for (const ConditionValue& c : conditions)
      if (c.condition == index) return c.value_in_si;
    return std::nullopt;
  }
  /// Index of the value that the state has; nothing where it is not set.
  std::optional<std::uint16_t> state(std::uint16_t index) const {
    for (const StateValue& set : states)
      if (set.state == index) return set.value;
    return std::nullopt;
  }
};

}  // namespace ohmwright
