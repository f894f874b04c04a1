// The wording of ours: every field in it can be filled.

#include "model/texts.hpp"

#include <algorithm>

#include <gtest/gtest.h>

#include "rules/standard_advice.hpp"

namespace ohmwright::kind_file {
namespace {

/// Whether every {name} in the sentence is one of the fields.
bool can_be_filled(std::string_view sentence, FieldSet fields) {
  for (std::size_t open = sentence.find('{'); open != std::string_view::npos; open = sentence.find('{', open + 1)) {
    const std::string_view name = sentence.substr(open + 1, sentence.find('}', open) - open - 1);
    bool known = false;
    for (std::size_t i = 0; i < field_count; ++i) {
      const auto field = static_cast<Field>(i);
      known = known || (holds(fields, field) && name_of(field) == name);
    }
    if (!known) return false;
  }
  return true;
}

template <class Rows>
void expect_whole(const Rows& rows) {
  for (auto row = rows.begin(); row != rows.end(); ++row) {
    EXPECT_NE(row->meaning.empty(), row->english.empty()) << row->id;  // ours, or the file's
    EXPECT_TRUE(can_be_filled(row->english, row->fields)) << row->id;
    EXPECT_TRUE(std::none_of(rows.begin(), row, [&](const TextRow& other) { return other.id == row->id; })) << row->id;
  }
}

TEST(TextsOfOurs, AreWholeAndHaveFieldsThatCanBeFilled) {
  expect_whole(limits_texts());
  expect_whole(contact_texts());
  expect_whole(insulation_texts());
  for (const StandardAdviceRow& row : standard_advice())
    EXPECT_TRUE(can_be_filled(row.text.english, row.fields)) << row.text.id;
}

TEST(TextsOfOurs, StandInTheOrderOfTheirNames) {
  EXPECT_EQ(limits_texts()[static_cast<std::size_t>(LimitsText::over_range_within)].id, "over-range-within");
  EXPECT_EQ(limits_texts()[static_cast<std::size_t>(LimitsText::needs_tester)].id, "needs-tester");
  EXPECT_EQ(insulation_texts()[InsulationText::repeats_differ].id, "repeats-differ");
  EXPECT_EQ(insulation_texts()[InsulationText::only_live].id, "only-live");
  EXPECT_EQ(insulation_texts()[static_cast<std::size_t>(OwnInsulationText::no_figure)].id, "no-figure");
  EXPECT_EQ(contact_texts()[static_cast<std::size_t>(ContactText::poor)].id, "poor");
  EXPECT_EQ(contact_texts()[static_cast<std::size_t>(ContactText::live)].id, "live");
  EXPECT_EQ(standard_advice()[static_cast<std::size_t>(StandardAdvice::prove_insulation)].text.id, "prove-insulation");
}

}  // namespace
}  // namespace ohmwright::kind_file
