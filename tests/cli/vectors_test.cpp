// The cases of a kind as exercises, through the real program.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

TEST(Cases, AreListedWithTheirTitles) {
  const Ran ran = run_program({"vectors", "heater", "--list"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("open: OL on a lead that is off\n"));
}

TEST(Cases, AsAQuestionGivePartAndReadingsButNeitherTitleNorVerdict) {
  const Ran ran = run_program({"vectors", "heater", "--case", "open"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("voltage: 120 V"), HasSubstr("power: 450 W"), HasSubstr("OL, taken as past")));
  EXPECT_THAT(ran.out, Not(HasSubstr("OUT OF SPEC")));
  EXPECT_THAT(ran.out, Not(HasSubstr("OL on a lead that is off")));
}

TEST(Cases, AnsweredGiveTheVerdictItsReasonsAndTheSource) {
  const Ran ran = run_program({"vectors", "heater", "--case", "open", "--answer", "--width", "200"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("Before you touch it"), HasSubstr("OUT OF SPEC: "), HasSubstr("What the case expects"),
                    HasSubstr("OL on a lead that is off"), HasSubstr("from: common practice, no source")));
}

TEST(Cases, ThatDoNotExistAreRefusedWithTheNearestName) {
  const Ran ran = run_program({"vectors", "heater", "--case", "opn"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err, "ohmwright: heater has no case \"opn\"; did you mean \"open\"?; --list shows them\n");
}

TEST(Cases, AreOfOneKind) {
  const Ran several = run_program({"vectors", "heater", "fan", "--list"});
  EXPECT_EQ(several.exit_code, 2);
  EXPECT_EQ(several.err, "ohmwright: --list and --case take one kind: ohmwright vectors thermistor --list\n");
  const Ran alone = run_program({"vectors", "heater", "--answer"});
  EXPECT_EQ(alone.exit_code, 2);
  EXPECT_EQ(alone.err, "ohmwright: --answer goes with --case: ohmwright vectors thermistor --case ID --answer\n");
}

}  // namespace
}  // namespace ohmwright
