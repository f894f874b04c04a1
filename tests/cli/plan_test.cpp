// The whole way of a search, through the real program.

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

Ran plan(std::vector<std::string> words) {
  words.insert(words.begin(), {"locate", "upright-thermistor-230v", "--plan"});
  Ran ran = run_program(words);
  EXPECT_THAT(ran.exit_code, ::testing::AnyOf(0, 1, 3)) << ran.err;  // an answer it has to be
  return ran;
}

/// Characters of the longest line; of UTF-8, each lead byte is one.
std::size_t longest_line(const std::string& text) {
  std::istringstream lines(text);
  std::string line;
  std::size_t longest = 0;
  while (std::getline(lines, line)) {
    std::size_t count = 0;
    for (const char c : line) count += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    longest = std::max(longest, count);
  }
  return longest;
}

TEST(PlanOfASearch, NumbersItsStepsAndSaysWhereAnswersLead) {
  const Ran ran = plan({"--symptom", "frost-whole-coil"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(
      ran.out,
      AllOf(HasSubstr("PLAN: start with step 1"), HasSubstr("on average"), HasSubstr("\n 1  "), HasSubstr("go to 2"),
            HasSubstr("Unplug, prove dead, discharge."), HasSubstr("Before you touch it: Sharp fins"),
            HasSubstr("FOUND: Defrost heater: element open"), HasSubstr("practice come before this list")));
}

TEST(PlanOfASearch, FitsNarrowAndWideScreens) {
  for (const std::size_t width : {40U, 80U}) {
    const Ran ran = plan({"--width", std::to_string(width)});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_LE(longest_line(ran.out), width);
  }
}

TEST(PlanOfASearch, GoesOnFromWhatWasRead) {
  const Ran ran = plan({"heater-plug=OL"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr(" 1  Ohms across the "), HasSubstr("OL (")));
  EXPECT_THAT(
      plan({"heater-plug=OL", "link-alone=0.3", "heater-alone=OL"}).out,
      AllOf(HasSubstr("FOUND: Defrost heater: element open"), HasSubstr("There is nothing to plan from here.")));
  EXPECT_THAT(plan({"--symptom", "frost-first-turns"}).out,
              HasSubstr("STOP: sealed refrigerant system, licensed work"));
}

TEST(PlanOfASearch, OffersNoLiveStepUnlessItIsAllowed) {
  const Ran none = plan({"--format", "json"});
  EXPECT_THAT(none.out, Not(HasSubstr("\"live\": true")));
}

TEST(PlanOfASearch, IsBoundedAsAsked) {
  const auto json = nlohmann::json::parse(plan({"--plan-depth", "1", "--plan-width", "2", "--format", "json"}).out);
  ASSERT_EQ(json["steps"].size(), 1U);
  EXPECT_LE(json["steps"][0]["answers"].size(), 2U);
  EXPECT_DOUBLE_EQ(json["minutes"].get<double>(), json["steps"][0]["minutes"].get<double>());
}

TEST(PlanOfASearch, HtmlLeadsFromStepToStep) {
  const Ran ran = plan({"--symptom", "frost-whole-coil", "--format", "html"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("<h2 id=\"step-1\">"), HasSubstr("<a href=\"#step-2\">go to 2</a>"),
                             Not(HasSubstr("src=\"http"))));
}

/// Whether that stands in the text, the pieces one after the other.
::testing::AssertionResult has_in_order(const std::string& text, const std::vector<std::string>& pieces) {
  std::size_t from = 0;
  for (const std::string& piece : pieces) {
    const std::size_t at = text.find(piece, from);
    if (at == std::string::npos) return ::testing::AssertionFailure() << '"' << piece << "\" is not there, or before";
    from = at + piece.size();
  }
  return ::testing::AssertionSuccess();
}

/// Who follows the lines one by one must not end a set-up before anything is read in it (common practice, no source).
TEST(PlanOfASearch, EndsASetUpAfterTheReading) {
  const std::vector<std::string> words{"locate", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil",
                                       "--plan"};
  EXPECT_TRUE(has_in_order(run_program(words).out, {"Set up: timer turned by hand", "It took if: the click", "go to ",
                                                    "Afterwards, once nothing more is read so: turn it on"}));
  std::vector<std::string> page = words;
  page.insert(page.end(), {"--format", "html"});
  EXPECT_TRUE(has_in_order(run_program(page).out, {"<li>Set up: timer turned by hand", "<li>It took if: the click</li>",
                                                   "</ol>", "<table>", "</table>", "<p>Afterwards"}));
}

TEST(PlanOfASearch, LiftsALeadBeforeASetUpAndOnceIceIsGone) {
  const auto plan_of = [](const char* appliance) {
    return run_program({"locate", appliance, "--symptom", "frost-whole-coil", "--plan", "--width", "120"}).out;
  };
  EXPECT_TRUE(has_in_order(plan_of("upright-timer-bimetal-120v"),
                           {"Set up: coil thawed", "It took if: a thermometer",
                            "Lift a lead: contact-1 of Defrost thermostat", "Afterwards"}));
  EXPECT_TRUE(has_in_order(plan_of("upright-shared-neutral-230v"),
                           {"Lift the leads: line, neutral, defrost, run of Defrost timer",
                            "Set up: timer turned by hand to defrost", "It took if: the click", "Afterwards"}));
}

TEST(PlanOfASearch, RefusesWhatDoesNotGoTogether) {
  EXPECT_EQ(run_program({"locate", "upright-thermistor-230v", "--plan", "--interactive"}).err,
            "ohmwright: --plan prints the whole way, --interactive asks step by step: choose one of them\n");
  EXPECT_EQ(run_program({"locate", "upright-thermistor-230v", "--plan-depth", "2"}).err,
            "ohmwright: --plan-depth says how far a plan goes; say --plan as well\n");
  EXPECT_EQ(run_program({"locate", "upright-thermistor-230v", "--plan", "--plan-depth", "0"}).exit_code, 2);
}

class PlanOfEach : public ::testing::TestWithParam<std::string> {};

TEST_P(PlanOfEach, ShippedApplianceIsValidAndEnds) {
  const Ran ran = run_program({"locate", GetParam(), "--plan", "--plan-depth", "3", "--format", "json"});
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_TRUE(plan_schema().problems(parse_document(ran.out, "plan").root).empty());
  const auto json = nlohmann::json::parse(ran.out);
  ASSERT_FALSE(json["steps"].empty());
  for (const auto& step : json["steps"])
    for (const auto& answer : step["answers"]) EXPECT_NE(answer.contains("next"), answer.contains("end"));
}

INSTANTIATE_TEST_SUITE_P(Each, PlanOfEach,
                         ::testing::ValuesIn(names_in_folder(OHMWRIGHT_SOURCE_DIR
                                                             "/framework/ohmwright/appliance/appliances")),
                         [](const auto& tested) {
                           std::string name = tested.param;
                           for (char& c : name)
                             if (c == '-') c = '_';
                           return name;
                         });

}  // namespace
}  // namespace ohmwright
