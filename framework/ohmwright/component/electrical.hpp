#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright {

/// What lies between two terminals of a part.
enum class ElementType : std::uint8_t { resistance, capacitance, inductance, voltage_source, open, closed };

/// One element of a part's electrical model.
struct Element {
  ElementType type = ElementType::resistance;
  std::uint16_t from = 0;  ///< index into `Descriptor::terminals`
  std::uint16_t to = 0;
  double value_in_si = 0.0;          ///< ohm, farad, henry or volt
  double relative_half_width = 0.0;  ///< tolerance of the value between good parts, rectangular
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

/// The situation for which a model or an expectation is asked.
struct Situation {
  std::span<const ConditionValue> conditions;
  std::span<const StateValue> states;
  double line_frequency_hz = 0.0;  ///< 0: direct current, as an ohmmeter sees it

  std::optional<double> condition(std::uint16_t index) const {
    for (const ConditionValue& c : conditions)
      if (c.condition == index) return c.value_in_si;
    return std::nullopt;
  }
};

}  // namespace ohmwright
