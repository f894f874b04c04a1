// What the conversation does with what is typed: a reading where a digit is asked, a slip, a yes that ends the job.

#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job_call.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;

/// A job of which the phone has said all, so that the conversation begins with what is seen.
std::vector<std::string> opened(const std::string& appliance) {
  std::vector<std::string> words{"open", "Warm", "--appliance", appliance, "--symptom", "frost-whole-coil"};
  for (const char* answer : {"tingles=no", "burning_smell=no", "refrigerant=R-134a", "frost=whole", "volts=230",
                             "room=24C", "tried=nothing"}) {
    words.emplace_back("--answer");
    words.emplace_back(answer);
  }
  return words;
}

TEST_F(JobCall, TakesAReadingThatIsTypedWhereADigitIsAsked) {
  done(opened("bottom-freezer-thermistor-230v"));
  const std::string talk = run({}, "1\n1\n27.5k\n-18C\n0\n").out;
  EXPECT_THAT(talk, AllOf(HasSubstr("Temperature at the part"), Not(HasSubstr("Type one of the digits"))))
      << "sensor and connector together hang on the temperature, too";
  EXPECT_EQ(report()["readings"].size(), 1U);
}

TEST_F(JobCall, AsksARefusedReadingAgainAtItsStep) {
  done(opened("bottom-freezer-thermistor-230v"));
  const std::string talk = run({}, "1\n1\n4\n1\n27.5x\n\n0\n").out;
  const std::size_t refused_at = talk.find("unknown unit");
  ASSERT_NE(refused_at, std::string::npos) << talk;
  EXPECT_EQ(talk.find("What it shows", refused_at) < talk.find("Do next", refused_at), true)
      << "it is asked again before the next page";
}

/// Three keys beside each other: one ends the job.
TEST_F(JobCall, AsksBeforeItEndsTheJobUnrepaired) {
  done(opened("upright-timer-bimetal-120v"));
  EXPECT_THAT(run({}, "1\n1\n7\n2\n2\n0\n").out, HasSubstr("It ends without a repair"));
  EXPECT_EQ(report()["state"], "open");
  run({}, "1\n7\n2\n1\n");
  EXPECT_EQ(report()["state"], "declined");
}

/// A low insulation condemns the part alone only with its leads off, which can be said.
TEST_F(JobCall, AsksHowALowInsulationWasRead) {
  done(opened("upright-timer-bimetal-120v"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({}, "1\n1\n1\n1\n0.2M\n1\n1\n0\n");
  EXPECT_THAT(run({"verify", "--width", "300"}).out, HasSubstr("is not within limits"));
}

/// What overheated a link is found at the end of the conversation, by a digit.
TEST_F(JobCall, IsToldWhatOverheatedALink) {
  done({"open", "Wet", "--appliance", "vented-dryer-230v", "--symptom", "no-heat", "--answer", "tingles=no", "--answer",
        "burning_smell=no", "--answer", "volts=230", "--answer", "room=24C", "--answer", "tried=nothing"});
  done({"replace", "link", "--new", "unknown", "--because", "a test"});
  run({"read", "link-alone=0.1"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({}, "1\n1\n1\n1\n6\n2\n1\n\n").out,
              AllOf(HasSubstr("What overheated it?"), HasSubstr("2  vent pipe or lint filter blocked"),
                    Not(HasSubstr("outlet or breaker"))));
  EXPECT_EQ(report()["state"], "repaired");
}

/// 22 for 2 is asked about, and no reading before that.
TEST_F(JobCall, AsksWhetherADigitWasStruckTwice) {
  done(opened("upright-timer-bimetal-120v"));
  EXPECT_THAT(run({}, "1\n1\n2\n22\n2\n0\n").out, HasSubstr("22: is that what the meter shows?"));
  EXPECT_TRUE(report()["readings"].empty());
  run({}, "1\n22\n1\n0\n");
  EXPECT_EQ(report()["readings"].size(), 1U);
}

/// Prompts, too, are no wider than the page.
TEST_F(JobCall, BreaksItsPromptsAtTheWidthOfThePage) {
  done(opened("bottom-freezer-thermistor-230v"));
  std::istringstream lines(run({"--width", "40"}, "1\n1\n27.5k\n-18C\n0\n").out);
  for (std::string line; std::getline(lines, line);)
    if (line.find("> ") == std::string::npos) {
      EXPECT_LE(line.size(), 60U) << line;  // bytes; a letter may have three
    }
}

}  // namespace
}  // namespace ohmwright
