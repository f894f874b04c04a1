// Generic appliances built from answers: each can be read and has nothing to mend, whatever was answered.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/appliance/kit.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/report/appliance_report.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

const Kit& shipped_kit() {
  static const Kit kit(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/kits/frost-free.json"));
  return kit;
}

/// Every combination of answers that is built in a way of its own.
std::vector<KitAnswers> all_answers() {
  std::vector<KitAnswers> all{{}};
  for (const KitQuestion& question : shipped_kit().questions()) {
    std::vector<KitAnswers> longer;
    for (const KitAnswers& answers : all)
      for (const KitChoice& choice : question.choices) {
        if (!choice.stands_for.empty()) continue;
        if (question.id == "refrigerant" && choice.id != "unknown") continue;  // a word, no wiring
        KitAnswers more = answers;
        more[question.id] = choice.id;
        longer.push_back(std::move(more));
      }
    all = std::move(longer);
  }
  return all;
}

std::vector<std::string> to_mend(const Appliance& appliance) {
  std::vector<std::string> sentences;
  for (const ApplianceFinding& finding : check_appliance(appliance))
    if (is_wrong(finding.form)) sentences.push_back(finding_text(appliance, finding, Sentences(UnitPreferences{})));
  return sentences;
}

TEST(Kit, AsksAtMostSixQuestionsWithADigitEach) {
  EXPECT_LE(shipped_kit().questions().size(), 6U);
  for (const KitQuestion& question : shipped_kit().questions()) EXPECT_LE(question.choices.size(), 9U);
}

TEST(Kit, BuildsAWholeApplianceFromEveryAnswer) {
  ASSERT_THAT(missing_kinds(file_text(shipped_kit().build({}))), ::testing::IsEmpty());
  for (const KitAnswers& answers : all_answers()) {
    std::string said;
    for (const auto& [question, answer] : answers) said += question + "=" + answer + " ";
    SCOPED_TRACE(said);
    const std::string text = file_text(shipped_kit().build(answers));
    ASSERT_EQ(refusal_of(text), "");
    ASSERT_THAT(to_mend(appliance_of(text)), IsEmpty());
  }
}

TEST(Kit, SaysWhatItAssumes) {
  EXPECT_EQ(shipped_kit().notes({}).size(), 6U);
  EXPECT_THAT(shipped_kit().notes({{"volts", "120"},
                                   {"starts", "timer"},
                                   {"ends", "bimetal"},
                                   {"link", "no"},
                                   {"fan", "two"},
                                   {"refrigerant", "flammable"}}),
              IsEmpty());
}

TEST(Kit, TakesAnUnansweredQuestionForUnknown) {
  EXPECT_EQ(file_text(shipped_kit().build({})), file_text(shipped_kit().build({{"volts", "unknown"}})));
  EXPECT_THAT(file_text(shipped_kit().build({})), HasSubstr("230 V"));
}

TEST(Kit, RefusesAnswersThatAreNotThere) {
  const auto refusal = [](const KitAnswers& answers) -> std::string {
    try {
      shipped_kit().build(answers);
      return "";
    } catch (const InputError& error) {
      return error.what();
    }
  };
  EXPECT_EQ(refusal({{"volt", "120"}}), "there is no question \"volt\"; did you mean \"volts\"?");
  EXPECT_EQ(refusal({{"volts", "110"}}), "the question volts has no answer \"110\"; did you mean \"120\"?");
}

TEST(Kit, RefusesWhatIsNoKit) {
  try {
    Kit kit(parse_document(R"({"questions": [{"id": "volts", "asks": "?", "choices": [{"id": "120"}]}], "splice": {}})",
                           "kit"));
    FAIL();
  } catch (const DocumentError& error) {
    EXPECT_THAT(error.what(), HasSubstr("/questions/0: the last choice of a question is \"unknown\""));
    EXPECT_THAT(error.what(), HasSubstr("a kit has an object \"appliance\""));
  }
}

}  // namespace
}  // namespace ohmwright::testing
