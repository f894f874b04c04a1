#include <gmock/gmock.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/report/comparison_report.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;

EquivalenceFinding finding(Outcome outcome, std::string_view text = "it is off by {off}") {
  return {outcome, {"property", text}, {{"off", AnyQuantity(Dimension::temperature_difference, 1.9)}}};
}

std::string page_of(const std::vector<EquivalenceFinding>& findings) {
  const Sentences say{UnitPreferences{}};
  return comparison_page({testing::test_descriptor(), "old one", "new one", findings}, say, {40, false});
}

TEST(Equivalence, OnePropertyThatDiffersIsEnoughAndOneInDoubtLeavesItOpen) {
  const std::vector<EquivalenceFinding> nothing;
  EXPECT_EQ(equivalence(nothing), Outcome::undecided);
  const auto of = [](std::initializer_list<Outcome> outcomes) {
    std::vector<EquivalenceFinding> findings;
    for (const Outcome outcome : outcomes) findings.push_back(finding(outcome));
    return equivalence(findings);
  };
  EXPECT_EQ(of({Outcome::silent}), Outcome::undecided);
  EXPECT_EQ(of({Outcome::within_limits, Outcome::silent}), Outcome::within_limits);
  EXPECT_EQ(of({Outcome::within_limits, Outcome::undecided}), Outcome::undecided);
  EXPECT_EQ(of({Outcome::within_limits, Outcome::undecided, Outcome::out_of_limits}), Outcome::out_of_limits);
}

TEST(ComparisonPage, SaysTheAnswerFirstAndWhatDiffersBeforeWhatIsTheSame) {
  const std::string page =
      page_of({finding(Outcome::within_limits, "the same volts"), finding(Outcome::out_of_limits)});
  EXPECT_THAT(page, StartsWith("NOT EQUIVALENT: new one cannot stand in\nfor old one\n"));
  EXPECT_THAT(page, HasSubstr("What differs\n  - it is off by 1.9 K\n"));
  EXPECT_LT(page.find("What differs"), page.find("What is the same, or near enough\n"));
  EXPECT_THAT(page_of({finding(Outcome::within_limits)}), StartsWith("EQUIVALENT: new one can stand in for old\none"));
  EXPECT_THAT(page_of({finding(Outcome::undecided)}), HasSubstr("What is in doubt"));
  EXPECT_THAT(page_of({finding(Outcome::silent)}), HasSubstr("Not compared"));
}

TEST(ComparisonJson, FollowsItsSchema) {
  const Sentences say{UnitPreferences{}};
  const std::vector<EquivalenceFinding> findings{finding(Outcome::out_of_limits), finding(Outcome::silent)};
  const Document document =
      parse_document(comparison_json({testing::test_descriptor(), "old", "new", findings}, say), "comparison");
  for (const Problem& problem : comparison_schema().problems(document.root)) ADD_FAILURE() << problem.text;
}

}  // namespace
}  // namespace ohmwright
