#include "typed_readings.hpp"

#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright::cli {
namespace {

using ohmwright::testing::basic_meter;
using ohmwright::testing::test_descriptor;

std::vector<Reading> readings_from(const std::vector<std::string>& words, UnitPreferences& units) {
  return make_readings(sort_reading_words(words, test_descriptor()).readings, test_descriptor(), basic_meter("0 ohm"),
                       units);
}

std::vector<Reading> readings_from(const std::vector<std::string>& words) {
  UnitPreferences units;
  return readings_from(words, units);
}

TEST(TypedReadings, OneTemperatureOfAGroupIsOneError) {
  const auto readings = readings_from({"11.0k", "OL", "--at", "23C"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].conditions[0].error_source, readings[1].conditions[0].error_source);
}

TEST(TypedReadings, AnUnstatedUncertaintyIsTheKindsAndMarked) {
  const auto stated = readings_from({"11.0k", "--at", "23C ± 0.5K"})[0].conditions[0];
  EXPECT_FALSE(stated.uncertainty_assumed);
  EXPECT_DOUBLE_EQ(*stated.value.half_width, 0.5);
  const auto assumed = readings_from({"11.0k", "--at", "23C"})[0].conditions[0];
  EXPECT_TRUE(assumed.uncertainty_assumed);
  EXPECT_DOUBLE_EQ(*assumed.value.half_width, 2.0);
}

TEST(TypedReadings, ABareNumberTakesTheMeasurandsUnitAndSaysSo) {
  const auto readings = readings_from({"28"});
  const auto& stated = std::get<StatedValue>(readings[0].observed);
  EXPECT_TRUE(stated.unit_assumed);
  EXPECT_DOUBLE_EQ(stated.value.value_in_si(), 28.0);
}

TEST(TypedReadings, RepeatsBecomeOneReading) {
  const auto readings = readings_from({"11.0k", "11.1k", "10.9k"});
  ASSERT_EQ(readings.size(), 1U);
  EXPECT_EQ(readings[0].repeats, (std::vector<double>{11100.0, 10900.0}));
}

TEST(TypedReadings, AnOverRangeBetweenRepeatsLosesNoReading) {
  const auto readings = readings_from({"11.0k", "OL", "11.1k", "10.9k"});
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].repeats, (std::vector<double>{11100.0, 10900.0}));
}

TEST(TypedReadings, TheUnitsThatWereTypedAreRemembered) {
  UnitPreferences units;
  readings_from({"11.0k", "--at", "73.4F"}, units);
  EXPECT_EQ(units.unit_for(Temperature::from_celsius(0.0)).symbol(), "degF");
}

TEST(TypedReadings, AValueOfAConditionAmongTheReadingsIsToldItsOption) {
  try {
    readings_from({"10.9k", "23C"});
    FAIL() << "accepted";
  } catch (const InputError& error) {
    EXPECT_TRUE(std::string_view(error.what()).ends_with("; a temperature is said with --at: --at 23C"))
        << error.what();
  }
}

}  // namespace
}  // namespace ohmwright::cli
