#include "reading_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright::cli {
namespace {

using ::testing::ElementsAre;

std::vector<ReadingWords> sorted(const std::vector<std::string>& words) {
  return sort_reading_words(words, ohmwright::testing::test_descriptor());
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
            "unknown option \"--lead-of\"; did you mean \"--lead-off\"?; see: ohmwright check --help");
  EXPECT_EQ(refusal_of({"11k", "--at"}), "--at needs a value");
  EXPECT_EQ(refusal_of({"sped=1550rpm"}),
            "a test-part has no \"sped\" to read; did you mean \"speed\"?; it has: resistance, speed");
}

}  // namespace
}  // namespace ohmwright::cli
