#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;
using ::testing::HasSubstr;

TEST(Ratings, TakeUsualLimitsWhereNoneAreStated) {
  const ControlRatings plain = ratings(R"({"type": "relay-board"})");
  EXPECT_EQ(plain.contact_resistance.value(), 0.2);
  EXPECT_EQ(plain.solid_state_drop.value(), 1.5);
  EXPECT_EQ(plain.switching, Switching::contact);
  EXPECT_EQ(plain.interval_counts, Counts::compressor);
  EXPECT_FALSE(plain.sensor);
  EXPECT_EQ(ratings(R"({"type": "cam-timer"})").motor_temperature.celsius(), 25.0);
}

TEST(Ratings, RefuseWhatCannotBe) {
  const auto refusal = [](const std::string& json) {
    const auto problems = problems_of(json);
    return problems.empty() ? std::string("accepted") : problems.front().pointer + ": " + problems.front().text;
  };
  EXPECT_EQ(refusal(R"({"type": "cam-timer", "motor_least": "9 kohm", "motor_most": "8 kohm"})"),
            "/motor_most: the most must be above the least; were the two swapped?");
  EXPECT_EQ(refusal(R"({"type": "cam-timer", "motor_least": "9 kohm"})"),
            "/motor_least: the winding needs both of its limits, \"motor_least\" and \"motor_most\"");
  EXPECT_EQ(refusal(R"({"type": "relay-board", "motor_least": "4 kohm", "motor_most": "8 kohm"})"),
            "/motor_most: a board has no timer motor; its type is \"cam-timer\", or leave this out");
  EXPECT_EQ(refusal(R"({"type": "cam-timer", "switching": "solid-state"})"),
            "/switching: a cam closes contacts; only a board switches without them");
  EXPECT_EQ(refusal(R"({"type": "cam-timer", "run_contact_at_rest": "closed"})"),
            "/run_contact_at_rest: the contacts of a cam timer stay as the cam stands; only a board has a rest "
            "without power");
  EXPECT_EQ(refusal(R"({"type": "cam-timer", "power_supply": "electronic"})"),
            "/power_supply: between line and neutral of a cam timer lies its motor");
  EXPECT_EQ(refusal(R"({"type": "relay-board", "interval_least": "6 h"})"),
            "/interval_least: the interval needs both of its limits, \"interval_least\" and \"interval_most\"");
  EXPECT_EQ(refusal(R"({"type": "relay-board", "defrost_time_least": "6 min"})"),
            "/defrost_time_least: say how long a defrost lasts at most: \"defrost_time_most\"");
  EXPECT_EQ(refusal(R"({"type": "relay-board", "sensor_supply": "5 V", "sensor_supply_tolerance": "10 %"})"),
            "/sensor_supply: only a \"thermistor-board\" reads a sensor");
  EXPECT_EQ(refusal(R"({"type": "thermistor-board", "sensor_supply": "5 V"})"),
            "/sensor_supply: say how far good parts may be off: \"sensor_supply_tolerance\"");
  EXPECT_EQ(refusal(R"({"type": "thermistor-board", "sensor_pull_up": "10 kohm"})"),
            "/sensor_pull_up: from where: \"sensor_supply\" is not stated");
  EXPECT_EQ(refusal(R"({"type": "thermistor-board", "sensor_supply_tolerance": "10 %"})"),
            "/sensor_supply_tolerance: of what: \"sensor_supply\" is not stated");
  EXPECT_EQ(refusal(R"({"type": "relay-board", "voltage": "0 V"})"), "/voltage: this figure must be above 0");
  EXPECT_THAT(refusal(R"({"type": "relay-board", "voltage": "60 Hz"})"), HasSubstr("expected a voltage"));
}

TEST(Ratings, EveryClassMakesAPart) {
  const ControlKind kind;
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(OHMWRIGHT_DEFROST_CONTROL_FOLDER "/ratings")) {
    ++files;
    const Document document = read_document(entry.path().string());
    const RatingsDocument read = ohmwright::read_ratings(document, kind.descriptor());
    std::vector<Problem> problems;
    EXPECT_TRUE(kind.make_part(read.ratings, problems)) << entry.path();
    EXPECT_EQ(read.name + ".json", entry.path().filename().string());
  }
  EXPECT_EQ(files, 5U);
}

}  // namespace
}  // namespace ohmwright::defrost_control
