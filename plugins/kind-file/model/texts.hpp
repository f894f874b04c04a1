#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/insulation.hpp>

namespace ohmwright::kind_file {

// The sentences that a rule of a kind file can say. A file writes those that speak of its part; the others have a
// wording of ours, which it may replace.

/// What may stand in a sentence as {name}.
enum class Field : std::uint8_t {
  measured,
  lower,
  upper,
  nominal,
  off_percent,
  at,
  count,
  range,
  closed_below,
  open_above,
  open_below,
  closed_above,
  chance_percent,
  share_percent,
  least,
  volts,
  shown,
  missing,
};
inline constexpr std::size_t field_count = 18;
std::string_view name_of(Field field);

/// A set of fields, one bit each.
using FieldSet = std::uint32_t;
constexpr FieldSet only(Field field) { return FieldSet{1} << static_cast<unsigned>(field); }
constexpr bool holds(FieldSet set, Field field) { return (set & only(field)) != 0; }

/// What a rule on limits says.
enum class LimitsText : std::uint8_t {
  within,
  high,
  low,
  undecided,
  within_connection_unstated,
  connection_unstated,
  readings_disagree,
  over_range,
  over_range_within,
  range_too_low,
  range_unknown,
  in_circuit,
  not_read,
  no_condition,
  out_of_reach,
  no_figure,
  wet,
  live,
  needs_tester,
};

/// What a rule on a contact says.
enum class ContactText : std::uint8_t {
  closed_right,
  open_right,
  both_right,
  closed_wrong,
  open_wrong,
  closed_either,
  open_either,
  poor,
  connection_unstated,
  in_circuit,
  open_in_circuit,
  not_read,
  no_condition,
  no_figure,
  live,
  comes_and_goes,
  range_too_coarse,
  range_too_low,
  right_alone,
  states_to_read,
};

/// What a rule on insulation says beside the texts of `InsulationText`, which come first.
enum class OwnInsulationText : std::uint8_t {
  still_to_read = InsulationText::first_own,
  not_read,
  no_figure,
};

/// One text of a form of rule.
struct TextRow {
  std::string_view id;
  std::string_view meaning;  ///< of a text that the file has to write; empty: it need not
  std::string_view english;  ///< of one that it need not
  FieldSet fields = 0;
};

inline constexpr std::size_t limits_text_count = 19;
inline constexpr std::size_t contact_text_count = 20;
inline constexpr std::size_t insulation_text_count = InsulationText::first_own + 3;
inline constexpr std::size_t most_texts = std::max({limits_text_count, contact_text_count, insulation_text_count});
const std::array<TextRow, limits_text_count>& limits_texts();    ///< in the order of LimitsText
const std::array<TextRow, contact_text_count>& contact_texts();  ///< in the order of ContactText
/// In the order of InsulationText, then of OwnInsulationText.
const std::array<TextRow, insulation_text_count>& insulation_texts();

/// A text that a rule can say: its place in the rule's descriptor and the fields that stand in it.
struct SayableText {
  TextIndex index = not_found;  ///< `not_found`: this rule never says it
  boost::container::static_vector<Field, field_count> fields;
};

/// The texts of one rule, in the order of its form's enumeration.
struct RuleTexts {
  std::array<SayableText, most_texts> sayable;  ///< some forms have fewer
  std::vector<std::uint8_t> said_by_index;      ///< from place in the descriptor to enumerator

  template <class Text>
  const SayableText& operator[](Text text) const {
    return sayable[static_cast<std::size_t>(text)];
  }
};

}  // namespace ohmwright::kind_file
