#include "reading_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright::cli {
namespace {

using ::testing::ElementsAre;

/// The kind of the framework's tests, with a measurand more.
const Descriptor& descriptor() {
  static const Descriptor with_current = [] {
    Descriptor d = ohmwright::testing::test_descriptor();
    d.measurands.push_back({"current", "Current", Dimension::current, "A", false});
    return d;
  }();
  return with_current;
}

std::vector<ReadingWords> sorted(const std::vector<std::string>& words) {
  return sort_reading_words(words, descriptor()).readings;
}

std::vector<std::string> said(const ReadingWords& reading) {
  std::vector<std::string> text;
  for (const CircumstanceWord& circumstance : reading.circumstances)
    text.push_back(circumstance.option + "=" + circumstance.value);
  return text;
}

std::string refusal_of(const std::vector<std::string>& words) {
  try {
    sorted(words);
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

TEST(ReadingWords, WhatFollowsAGroupHoldsForThatGroup) {
  const auto readings = sorted({"11.0k", "--at", "23C", "33.1k", "--at", "0C", "--wet"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(readings[0].values, ElementsAre("11.0k"));
  EXPECT_THAT(said(readings[0]), ElementsAre("at=23C"));
  EXPECT_THAT(readings[1].values, ElementsAre("33.1k"));
  EXPECT_THAT(said(readings[1]), ElementsAre("at=0C", "wet="));
}

TEST(ReadingWords, HowItWasConnectedReachesBackAsATemperatureDoes) {
  const auto readings = sorted({"9.2k", "--wet", "12.4k", "--dry", "--at", "20C", "--lead-off", "--leads", "0.3ohm"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(said(readings[0]), ElementsAre("wet=", "at=20C", "lead-off=", "leads=0.3ohm"));
  EXPECT_THAT(said(readings[1]), ElementsAre("dry=", "at=20C", "lead-off=", "leads=0.3ohm"));
}

TEST(ReadingWords, DeadPointsReachBackToOhmsOfWhoseSupplyNothingWasSaid) {
  const auto swapped = sorted({"8k", "--in-circuit", "8k", "--proved-dead"});
  EXPECT_THAT(said(swapped[0]), ElementsAre("in-circuit=", "proved-dead="));
  EXPECT_THAT(said(sorted({"8k", "--live", "8k", "--proved-dead"})[0]), ElementsAre("live="));
  EXPECT_THAT(said(sorted({"8k", "--unplugged", "8k", "--proved-dead"})[0]), ElementsAre("unplugged="));
  EXPECT_THAT(said(sorted({"current=1A", "--at", "23C", "8k", "--unplugged"})[0]), ElementsAre("at=23C"));
}

TEST(ReadingWords, WhatWasSaidOfAnEarlierReadingStays) {
  const auto readings = sorted({"9.2k", "--in-circuit", "12.4k", "--at", "20C", "--lead-off"});
  EXPECT_THAT(said(readings[0]), ElementsAre("in-circuit=", "at=20C"));
  EXPECT_THAT(said(readings[1]), ElementsAre("at=20C", "lead-off="));
}

TEST(ReadingWords, TheSameThingReadAgainInOneGroupIsOneReadingWithRepeats) {
  const auto readings = sorted({"11.0k", "11.1k", "10.9k", "--at", "23C"});
  ASSERT_EQ(readings.size(), 1U);
  EXPECT_THAT(readings[0].values, ElementsAre("11.0k", "11.1k", "10.9k"));
}

TEST(ReadingWords, WhatStandsBeforeTheFirstReadingHoldsForAll) {
  const auto readings = sorted({"--in-circuit", "11.0k", "--at", "23C", "33.1k", "--at", "0C"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(said(readings[0]), ElementsAre("at=23C", "in-circuit="));
  EXPECT_THAT(said(readings[1]), ElementsAre("at=0C", "in-circuit="));
}

TEST(ReadingWords, ATemperatureWithinTheWordIsThatReadingsOwn) {
  const auto readings = sorted({"33.1k@0C", "11.0k@23C", "--lead-off"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(said(readings[0]), ElementsAre("at=0C", "lead-off="));
  EXPECT_THAT(said(readings[1]), ElementsAre("at=23C", "lead-off="));
}

TEST(ReadingWords, NamesAMeasurand) {
  const auto readings = sorted({"speed=1550rpm", "28"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].measurand, "speed");
  EXPECT_EQ(readings[1].measurand, "resistance");
}

TEST(ReadingWords, JoinsAUnitThatTheShellTookOff) {
  const auto readings = sorted({"11.0", "kohm", "--at", "23", "C", "--line=118V"});
  ASSERT_EQ(readings.size(), 1U);
  EXPECT_THAT(readings[0].values, ElementsAre("11.0 kohm"));
  EXPECT_THAT(said(readings[0]), ElementsAre("at=23 C", "line=118V"));
}

TEST(ReadingWords, JoinsWhateverBelongsToOneValue) {
  const auto joined = [](const std::vector<std::string>& words) {
    const auto readings = sorted(words);
    EXPECT_EQ(readings.size(), 1U);
    std::string text = readings[0].values.size() == 1 ? readings[0].values[0] : "several";
    for (const std::string& one : said(readings[0])) text += " | " + one;
    return text;
  };
  EXPECT_EQ(joined({"11", "k", "--at", "23", "deg", "C"}), "11 k | at=23 deg C");
  EXPECT_EQ(joined({"11", "k", "ohm", "--at", "73", "f"}), "11 k ohm | at=73 f");
  EXPECT_EQ(joined({"11k", "ohms", "--at", "23c"}), "11k ohms | at=23c");
  EXPECT_EQ(joined({"4k7", "ohm"}), "4k7 ohm");
  EXPECT_EQ(joined({"OL", "Mohm"}), "OL Mohm");
  EXPECT_EQ(joined({"11", "k", "\u00B1", "1", "%", "--at", "23", "C", "+-", "0.5", "K"}),
            "11 k \u00B1 1 % | at=23 C +- 0.5 K");
  EXPECT_EQ(joined({"11k", "+-1%", "--at=23", "deg", "C"}), "11k +-1% | at=23 deg C");
  EXPECT_EQ(joined({"current=3.6", "A", "--range", "10", "A"}), "3.6 A | range=10 A");
  EXPECT_THAT(sorted({"28", "29", "ohm", "30"})[0].values, ElementsAre("28", "29 ohm", "30"));
}

TEST(ReadingWords, ATemperatureMayStandApartFromItsAt) {
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"11k", "@23C"}, {"11k@23C"}, {"11k", "@", "23C"}, {"11k@", "23C"}})
    EXPECT_THAT(said(sorted(words)[0]), ElementsAre("at=23C")) << words.size();
  EXPECT_THAT(said(sorted({"11", "k", "@", "23", "deg", "C", "33k", "@0C"})[0]), ElementsAre("at=23 deg C"));
  EXPECT_EQ(sorted({"11", "k", "@23", "C", "33k", "@0C"}).size(), 2U);
  EXPECT_EQ(refusal_of({"11k", "@"}), "nothing follows \"@\"; write what holds for the reading, such as 11.0k@23C");
  EXPECT_EQ(refusal_of({"@23C", "11k"}),
            "\"@\" stands without a reading; write it behind the one it holds for: 11.0k@23C");
}

TEST(ReadingWords, AMeasurandAsAnOptionJoinsTheGroupAtHand) {
  const auto readings = sorted({"28", "--line", "118V", "--current", "3.6A", "--at", "40C", "OL", "--line", "0V"});
  ASSERT_EQ(readings.size(), 3U);
  EXPECT_EQ(readings[1].measurand, "current");
  EXPECT_THAT(readings[1].values, ElementsAre("3.6A"));
  EXPECT_THAT(said(readings[0]), ElementsAre("line=118V", "at=40C"));
  EXPECT_THAT(said(readings[1]), ElementsAre("line=118V", "at=40C"));
  EXPECT_THAT(said(readings[2]), ElementsAre("line=0V"));
}

TEST(ReadingWords, AMeasurandAsAWordBeginsTheNextGroup) {
  const auto readings = sorted({"28", "--line", "118V", "current=3.6A", "--line", "117V"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(said(readings[1]), ElementsAre("line=117V"));
}

TEST(ReadingWords, MeasurandsAsOptionsAreRepeatedAndMayComeFirst) {
  const auto readings = sorted({"--line", "118V", "--current=3.6A", "--current", "3.7", "A", "28"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(readings[0].values, ElementsAre("3.6A", "3.7 A"));
  EXPECT_THAT(said(readings[0]), ElementsAre("line=118V"));
  EXPECT_THAT(said(readings[1]), ElementsAre("line=118V"));
  EXPECT_EQ(readings[0].group, readings[1].group);
}

TEST(ReadingWords, AnOptionWithItsOwnTemperatureKeepsIt) {
  const auto readings = sorted({"28", "--at", "20C", "--current", "3.6A@40C"});
  EXPECT_THAT(said(readings[1]), ElementsAre("at=40C"));
}

TEST(ReadingWords, AConditionMayBeAWord) {
  EXPECT_THAT(said(sorted({"28", "line=118", "V", "at=23C"})[0]), ElementsAre("line=118 V", "at=23C"));
  EXPECT_THAT(said(sorted({"line=118V", "28", "current=3A"})[1]), ElementsAre("line=118V"));
}

TEST(ReadingWords, NamesAreTakenInAnyLetterCaseAndBothWaysOfWriting) {
  EXPECT_THAT(said(sorted({"28", "--Line", "118V", "--PART-TEMPERATURE", "23C", "--Lead_Off"})[0]),
              ElementsAre("line=118V", "at=23C", "lead-off="));
  EXPECT_EQ(sorted({"Speed=1550rpm"})[0].measurand, "speed");
  EXPECT_EQ(refusal_of({"11k", "--at", "23C", "--part_temperature", "24C"}),
            "--at is said twice for the same readings; leave one out");
}

TEST(ReadingWords, WhatWasSaidForAllIsGivenForReadingsOfFilesToo) {
  const TypedWords typed = sort_reading_words(std::vector<std::string>{"--lead-off", "--at", "23C"}, descriptor());
  EXPECT_TRUE(typed.readings.empty());
  ASSERT_EQ(typed.said_for_all.size(), 2U);
  EXPECT_EQ(typed.said_for_all[1].value, "23C");
}

TEST(ReadingWords, ANegativeValueIsNoOption) {
  EXPECT_THAT(said(sorted({"33k", "--at", "-18C"})[0]), ElementsAre("at=-18C"));
}

TEST(ReadingWords, RefusesWhatTwoReadersWouldReadInTwoWays) {
  EXPECT_EQ(refusal_of({"--at", "0C", "33k", "--at", "23C", "11k"}),
            "--at stands before the first reading (for all of them) and again after one; write it after each group of "
            "readings, or with the reading itself: 33.1k@0C 11.0k@23C");
}

TEST(ReadingWords, AConditionReachesBackToGroupsThatWereGivenNone) {
  const auto readings = sorted({"25.0k", "--wet", "33.0k", "--dry", "--at", "0C"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_THAT(said(readings[0]), ElementsAre("wet=", "at=0C"));
  EXPECT_THAT(said(readings[1]), ElementsAre("dry=", "at=0C"));
}

TEST(ReadingWords, RefusesContradictionsAndSecondWords) {
  EXPECT_EQ(refusal_of({"--wet", "25k", "--dry", "33k"}),
            "--wet and --dry are both said of the same readings; write each after the readings it holds for");
  EXPECT_EQ(
      refusal_of({"11k", "--lead-off", "--in-circuit"}),
      "--lead-off and --in-circuit are both said of the same readings; write each after the readings it holds for");
  EXPECT_EQ(refusal_of({"11k", "--at", "23C", "--at", "24C"}),
            "--at is said twice for the same readings; leave one out");
}

TEST(ReadingWords, RefusesWhatItDoesNotKnow) {
  EXPECT_EQ(refusal_of({"11k", "--lead-of"}),
            "unknown option \"--lead-of\"; did you mean \"--lead-off\"?; --help lists what there is");
  EXPECT_EQ(refusal_of({"11k", "--at"}), "--at needs a value");
  EXPECT_EQ(refusal_of({"11k", "--at", "--wet"}), "--at needs a value");
  EXPECT_EQ(refusal_of({"11k", "--wet=yes"}), "--wet takes no value");
  EXPECT_EQ(refusal_of({"--curent", "3A"}),
            "unknown option \"--curent\"; did you mean \"--current\"?; --help lists what there is");
  EXPECT_EQ(refusal_of({"11k", "--temp", "23C"}),
            "unknown option \"--temp\"; did you mean \"--at\"?; --help lists what there is");
  EXPECT_EQ(refusal_of({"11k", "-at", "23C"}), "\"-at\" begins with one hyphen, and options with two: --at");
  EXPECT_EQ(refusal_of({"lin=118V"}),
            "a test-part has no \"lin\" to read; did you mean \"line\"?; it has: resistance, speed, current; "
            "conditions: at, line");
  EXPECT_EQ(refusal_of({"sped=1550rpm"}),
            "a test-part has no \"sped\" to read; did you mean \"speed\"?; it has: resistance, speed, current; "
            "conditions: at, line");
}

TEST(ReadingWords, AStateIsAnOptionOrAWord) {
  Descriptor timer = ohmwright::testing::test_descriptor();
  timer.states = {{"position", "position of its cam", {{"run", "in run"}, {"defrost", "in defrost"}}, "position"}};
  const auto states_of = [&](const std::vector<std::string>& words) {
    std::vector<std::string> all;
    for (const ReadingWords& reading : sort_reading_words(words, timer).readings)
      for (const std::string& one : said(reading)) all.push_back(one);
    return all;
  };
  EXPECT_THAT(states_of({"11k", "--position", "defrost"}), ElementsAre("position=defrost"));
  EXPECT_THAT(states_of({"position=run", "11k", "12k"}), ElementsAre("position=run"));
}

}  // namespace
}  // namespace ohmwright::cli
