#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <variant>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/reading_questions.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// Everything that the rules of one call to `judge` share.
struct Scene {
  const Definition& definition;
  std::span<const KnownRule> known;  ///< in the order of the definition's rules
  const Evidence& evidence;
  const JudgeSettings& settings;
  Findings& findings;

  bool sure(double probability) const { return probability >= settings.confidence; }
};

// What a reading's circumstances allow. `unstated` is a state of its own: it is taken as lead off where the reading
// cannot be flattered by that, and said aloud.
inline bool is_wet(const PreparedReading& reading) { return reading.moisture == Moisture::wet; }

/// Values for the fields of a sentence; a sentence takes those that stand in it.
class FieldValues {
 public:
  void set(Field field, AnyQuantity value) { values_[static_cast<std::size_t>(field)] = value; }
  void set(Field field, double number) { values_[static_cast<std::size_t>(field)] = number; }
  void set(Field field, std::string words) { values_[static_cast<std::size_t>(field)] = std::move(words); }

  /// Fills the fields of that text into the arguments of a finding. Allocates nothing but for words.
  void tell(const SayableText& text, FindingArguments& arguments) const {
    for (const Field field : text.fields) {
      const auto& value = values_[static_cast<std::size_t>(field)];
      if (const auto* quantity = std::get_if<AnyQuantity>(&value))
        arguments.push_back({name_of(field), *quantity});
      else if (const auto* number = std::get_if<double>(&value))
        arguments.push_back({name_of(field), *number});
      else if (const auto* words = std::get_if<std::string>(&value))
        arguments.push_back({name_of(field), *words});
    }
  }

 private:
  std::array<std::variant<std::monostate, AnyQuantity, double, std::string>, field_count> values_;
};

/// Adds a finding of the rule that says `text`.
template <class Text>
Finding& say(const Scene& scene, std::uint16_t rule, Outcome outcome, Text text, const FieldValues& values = {}) {
  const SayableText& sayable = scene.definition.rules[rule].texts[text];
  Finding& finding = scene.findings.add(rule, outcome, sayable.index);
  values.tell(sayable, finding.arguments);
  return finding;
}

}  // namespace ohmwright::kind_file
