#include <gtest/gtest.h>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

std::string_view output_says(const std::vector<Typed>& typed) { return text_of(judge(timer(), typed), output); }

TEST(Output, OnlyALoadMakesVoltsCount) {
  EXPECT_EQ(output_says({output_at("defrost", "119.8 V", "3.7 A")}), "full-volts");
  EXPECT_EQ(output_says({output_at("defrost", "119.8 V")}), "ghost-or-on");
  EXPECT_EQ(output_says({output_at("defrost", "119.8 V", "0.02 A +- 0.01 A")}), "ghost-or-on");
  EXPECT_EQ(output_says({output_at("defrost", "95 V", "3.0 A")}), "lossy");
  EXPECT_EQ(output_says({output_at("defrost", "0.3 V")}), "no-volts");  // no leakage hides a switch that is on
}

TEST(Output, HasToBeOffInRun) {
  EXPECT_EQ(output_says({output_at("run", "0.3 V")}), "off-in-run");
  EXPECT_EQ(output_says({output_at("run", "119.8 V", "3.7 A")}), "on-in-run");
  EXPECT_EQ(output_says({output_at("run", "100 V")}), "ghost-in-run");
  EXPECT_EQ(output_says({output_at("run", "95 V", "3.0 A")}), "lossy-in-run");
  EXPECT_EQ(verdict_on(timer(), {output_at("run", "119.8 V", "3.7 A")}), Outcome::out_of_limits);
}

TEST(Output, SaysWhyItIsSilent) {
  EXPECT_EQ(output_says({}), "not-read");
  EXPECT_EQ(output_says({output_at("defrost", "119 V", "3.7 A", {})}), "no-line");
  EXPECT_EQ(output_says({output_at("", "119 V", "3.7 A")}), "position-unstated");
  Typed dead = output_at("defrost", "0.3 V");
  dead.supply = Supply::unplugged;
  EXPECT_EQ(output_says({dead}), "not-live");
}

TEST(Output, TellsItsLimitsInVolts) {
  const Finding off = finding_of(judge(timer(), {output_at("defrost", "3 V")}), output);
  ASSERT_TRUE(off.limits.lower);
  EXPECT_EQ(off.limits.lower->dimension(), Dimension::voltage);
  EXPECT_NEAR(off.limits.lower->value_in_si(), 0.5 * 120.0, 1e-9);  // half the line, as rules/output.cpp has it
  const Finding on = finding_of(judge(timer(), {output_at("defrost", "119.8 V", "3.7 A")}), output);
  ASSERT_TRUE(on.limits.lower);
  EXPECT_NEAR(on.limits.lower->value_in_si(), 0.95 * 120.0, 1e-9);
}

std::string_view drop_says(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), contact_drop);
}

TEST(ContactDrop, FollowsCurrentForAContactAndNotForASolidStateSwitch) {
  EXPECT_EQ(drop_says(timer(), {across("0.19 V", "3.75 A")}), "small-drop");
  EXPECT_EQ(drop_says(timer(), {across("7.5 V", "3.75 A")}), "large-drop");
  EXPECT_EQ(drop_says(timer(), {across("0.75 V", "3.75 A")}), "not-told-apart");
  EXPECT_EQ(drop_says(solid_state_board(), {across("1.2 V", "0.78 A")}), "solid-state-small");
  EXPECT_EQ(drop_says(solid_state_board(), {across("6 V", "0.78 A")}), "solid-state-large");
  EXPECT_EQ(drop_says(timer(), {across("119 V", "0.00 A +- 0.02 A")}), "no-load");
}

TEST(ContactDrop, SaysWhyItIsSilent) {
  EXPECT_EQ(drop_says(timer(), {}), "no-drop");
  EXPECT_EQ(drop_says(timer(), {across("0.19 V", {})}), "no-current");
  EXPECT_EQ(text_of(judge(nullptr, {across("0.19 V", "3.75 A")}), contact_drop), "no-limit");
  Typed dead = across("0.19 V", "3.75 A");
  dead.supply = Supply::unplugged;
  EXPECT_EQ(drop_says(timer(), {dead}), "not-live");
}

std::string_view sensor_says(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), sensor_supply);
}

TEST(SensorSupply, IsJudgedPulledOrWithAKnownResistor) {
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("4.98 V")}), "right");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("0.01 V")}), "dead");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("3.3 V")}), "off");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("5.5 V")}), "unsure");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("2.5 V", "10 kohm")}), "right-at-stand-in");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("3.2 V", "10 kohm")}), "off-at-stand-in");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("2.75 V", "10 kohm")}), "unsure-at-stand-in");
}

TEST(SensorSupply, TellsTheLimitsOfTheResistorInPlaceWhateverItReads) {
  // 5 V over 10 kohm and 10 kohm, the voltmeter's 10 Mohm beside the lower one: 2.49875 V, within 10 %.
  for (const char* shown : {"0 V", "0.1 V", "2.5 V"}) {
    const Finding finding = finding_of(judge(sensor_board(), {at_sensor(shown, "10 kohm")}), sensor_supply);
    ASSERT_TRUE(finding.limits.lower && finding.limits.upper) << shown;
    EXPECT_NEAR(finding.limits.lower->value_in_si(), 0.9 * 2.49875, 1e-4) << shown;
    EXPECT_NEAR(finding.limits.upper->value_in_si(), 1.1 * 2.49875, 1e-4) << shown;
  }
}

TEST(SensorSupply, SaysWhyItIsSilent) {
  EXPECT_EQ(sensor_says(board(), {at_sensor("5 V")}), "no-sensor");
  EXPECT_EQ(sensor_says(ratings(R"({"type": "thermistor-board"})"), {at_sensor("5 V")}), "not-rated");
  EXPECT_EQ(text_of(judge(nullptr, {at_sensor("5 V")}), sensor_supply), "not-rated");
  EXPECT_EQ(sensor_says(sensor_board(), {}), "not-read");
  EXPECT_EQ(sensor_says(sensor_board(), {at_sensor("2.5 V", "0 ohm")}), "no-stand-in");
  const ControlRatings no_pull_up =
      ratings(R"({"type": "thermistor-board", "sensor_supply": "5 V", "sensor_supply_tolerance": "10 %"})");
  EXPECT_EQ(sensor_says(no_pull_up, {at_sensor("2.5 V", "10 kohm")}), "pull-up-unknown");
  Typed dead = at_sensor("5 V");
  dead.supply = Supply::unplugged;
  EXPECT_EQ(sensor_says(sensor_board(), {dead}), "not-live");
}

}  // namespace
}  // namespace ohmwright::defrost_control
