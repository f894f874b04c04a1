#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

// What the kinds tell a technician to do next must not hurt anybody, nor condemn a good part.

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

TEST(KindAdvice, AHeaterIsReadHotOnlyAtClipsThatWereFixedCold) {
  const Ran ran = run_program({"check", "heater", "insulation=50M", "--test", "500V", "--lead-off", "current=0A",
                               "terminals=119V", "--live-agreed", "--ratings", "heater-450w-120v", "--width", "400"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Read hot only at clips that were fixed when it was cold"));
  EXPECT_THAT(ran.out, HasSubstr("fix insulated clip leads to its own two leads"));
}

TEST(KindAdvice, NothingIsHeatedThatIsWholeOrOfWhichTheInsulationIsUnknown) {
  const Ran whole = run_program({"check", "heater", "32", "--lead-off", "current=0A", "terminals=119V", "--live-agreed",
                                 "--ratings", "heater-450w-120v", "--width", "400"});
  EXPECT_EQ(whole.exit_code, 1) << whole.err;
  EXPECT_THAT(whole.out, HasSubstr("look for an open before it first"));
  EXPECT_THAT(whole.out, Not(HasSubstr("Heat it")));
  const Ran unknown = run_program({"check", "heater", "current=0A", "terminals=119V", "--live-agreed", "--ratings",
                                   "heater-450w-120v", "--width", "400"});
  EXPECT_THAT(unknown.out, HasSubstr("Test it with a 500 V insulation tester"));
  EXPECT_THAT(unknown.out, Not(HasSubstr("Heat it")));
}

TEST(KindAdvice, NoLeadIsLiftedForASpeedOrATime) {
  const Ran fan = run_program(
      {"check", "fan", "82", "speed=1550rpm", "--lead-off", "--ratings", "shaded-pole-120v", "--width", "400"});
  EXPECT_THAT(fan.out, HasSubstr("How fast it turns: 1550 rpm\n"));
  EXPECT_THAT(fan.out, Not(HasSubstr("1550 rpm, lead off")));
}

TEST(KindAdvice, AFanThatStandsStillIsNotLetRun) {
  const Ran still = run_program({"check", "fan", "speed=0rpm", "--ratings", "shaded-pole-120v", "--width", "400"});
  EXPECT_EQ(still.exit_code, 3) << still.err;
  EXPECT_THAT(still.out, HasSubstr("flick its wheel"));
  EXPECT_THAT(still.out, Not(HasSubstr("let it run")));
}

TEST(KindAdvice, ABuzzerSaysNothingOfAHeaterOrAFan) {
  // It speaks below some 30 to 50 ohm: good ones lie on either side of that.
  for (const std::vector<std::string>& part : {std::vector<std::string>{"heater", "heater-450w-120v"},
                                               {"heater", "heater-5200w-240v"},
                                               {"heater", "heater-180w-230v"},
                                               {"fan", "shaded-pole-120v"},
                                               {"fan", "shaded-pole-230v"},
                                               {"fan", "capacitor-run-230v"}}) {
    for (const std::string word : {"beep", "no beep", "closed", "open"}) {
      const Ran ran = run_program({"check", part[0], word, "--lead-off", "--ratings", part[1]});
      EXPECT_EQ(ran.exit_code, 2) << part[1] << ", " << word << "\n" << ran.out;
      EXPECT_THAT(ran.err, Not(HasSubstr("\"beep\", \"no beep\"")));
    }
  }
}

TEST(KindAdvice, AThermostatWithoutABeepIsOpenAndNoRangeIsNamed) {
  const Ran ran =
      run_program({"check", "terminator", "no beep", "--at", "-18C", "--lead-off", "--ratings", "opens-13"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("The contact: open"));
  EXPECT_THAT(ran.out, Not(HasSubstr("60 MΩ")));
  EXPECT_THAT(ran.out, HasSubstr("First touch the probes together"));
}

TEST(KindAdvice, RepeatsThatJumpAreNoValueOfThePart) {
  for (const std::vector<std::string>& part :
       {std::vector<std::string>{"heater", "20", "45", "--lead-off", "--ratings", "heater-450w-120v"},
        {"heater", "32", "60", "--lead-off", "--ratings", "heater-450w-120v"},
        {"fan", "82", "60", "--lead-off", "--at", "22C", "--ratings", "shaded-pole-120v"}}) {
    std::vector<std::string> words{"check", "--width", "400"};
    words.insert(words.end(), part.begin(), part.end());
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 3) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("their mean says nothing: a contact comes and goes"));
    EXPECT_THAT(ran.out, HasSubstr("press the probes on firmly"));
    EXPECT_THAT(ran.out, Not(HasSubstr("with a chance of")));
  }
}

TEST(KindAdvice, AnIcedFanIsNotCondemned) {
  const Ran iced = run_program({"check", "fan", "speed=0rpm", "current=0.9A", "supply=120V", "--coast", "0s", "--at",
                                "-18C", "--live-agreed", "--ratings", "shaded-pole-120v", "--width", "400"});
  EXPECT_EQ(iced.exit_code, 3) << iced.err;
  EXPECT_THAT(iced.out, HasSubstr("Thaw it and flick it again"));
  EXPECT_THAT(iced.out, Not(HasSubstr("(say its temperature")));
  const Ran unseen =
      run_program({"check", "fan", "current=0.9A", "--live-agreed", "--ratings", "shaded-pole-120v", "--width", "400"});
  EXPECT_EQ(unseen.exit_code, 3) << unseen.err;
}

TEST(KindAdvice, AFanIsNotRunBeforeItsInsulationIsProved) {
  const Ran by_ohmmeter = run_program({"check", "fan", "82", "insulation=OL", "--lead-off", "--at", "25C", "--ratings",
                                       "shaded-pole-120v", "--width", "400"});
  EXPECT_THAT(by_ohmmeter.out, HasSubstr("Until then do not energise it"));
  EXPECT_THAT(by_ohmmeter.out, Not(HasSubstr("let it run")));
  const Ran in_spec =
      run_program({"check", "fan", "speed=1550rpm", "current=0.24A", "--live-agreed", "--ratings", "shaded-pole-120v"});
  EXPECT_EQ(in_spec.exit_code, 0) << in_spec.err;
  EXPECT_THAT(in_spec.out, HasSubstr("Not yet proved safe to energise: Insulation to the frame."));
}

TEST(KindAdvice, MilliohmsOfInsulationAreAskedAbout) {
  const Ran ran = run_program(
      {"check", "heater", "insulation=200mohm", "--test", "500V", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("200 mohm are milliohms"));
  EXPECT_THAT(ran.err, HasSubstr("write \"200 Mohm\""));
}

TEST(KindAdvice, AFrozenHeaterWasNotReadHot) {
  const Ran ran = run_program(
      {"check", "heater", "31", "--lead-off", "--at", "-18C", "--ratings", "heater-450w-120v", "--width", "400"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, Not(HasSubstr("read hot")));
}

}  // namespace
}  // namespace ohmwright
