#include <gtest/gtest.h>

#include <ohmwright/report/run_program.hpp>

namespace ohmwright {
namespace {

TEST(RunProgram, GivesBackWhatTheProgramMadeOfItsInput) {
  const std::string much(1U << 20U, 'x');
  EXPECT_EQ(run_program({"cat"}, much), much);
}

TEST(RunProgram, RunsNoShell) { EXPECT_EQ(run_program({"echo", "$(id)", "`id`"}, ""), "$(id) `id`\n"); }

TEST(RunProgram, IsEmptyForWhatIsNotThereOrFails) {
  EXPECT_FALSE(run_program({"no-such-program-anywhere"}, ""));
  EXPECT_FALSE(run_program({"false"}, ""));
}

TEST(RunProgram, SurvivesAProgramThatDoesNotRead) {
  const std::string much(1U << 20U, 'x');
  EXPECT_EQ(run_program({"true"}, much), "");
}

TEST(RunProgram, StopsAProgramThatNeverEndsTalking) { EXPECT_FALSE(run_program({"yes"}, "")); }

}  // namespace
}  // namespace ohmwright
