#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

Typed winding(std::string_view value, std::string_view at = "25 degC +- 1 K",
              Connection connection = Connection::lead_off) {
  return {.measurand = "motor", .value = value, .at = at, .connection = connection};
}

std::string_view motor_says(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), motor_winding);
}

TEST(MotorWinding, IsJudgedAtTheTemperatureOfItsLimits) {
  EXPECT_EQ(motor_says(timer(), {winding("8 kohm")}), "within");
  EXPECT_EQ(motor_says(timer(), {winding("3 kohm")}), "low");
  EXPECT_EQ(motor_says(timer(), {winding("15 kohm")}), "high");
  EXPECT_EQ(motor_says(timer(), {winding("12 kohm")}), "unsure");
  EXPECT_EQ(motor_says(timer(), {winding("13 kohm", "60 degC +- 1 K")}), "within");  // 11.45 kohm at 25 degC
}

TEST(MotorWinding, AnUnstatedTemperatureIsADoubtOfItsOwn) {
  const Findings findings = judge(timer(), {winding("8 kohm", {})});
  EXPECT_EQ(text_of(findings, motor_winding), "temperature-unstated");
  const double of_temperature = 7999.8 / 259.5 * 15.0 / std::sqrt(3.0);
  const double of_meter = (0.009 * 8000.0 + 3 * 10.0) / std::sqrt(3.0);  // on its range to 60 kohm
  EXPECT_NEAR(*finding_of(findings, motor_winding).measured_uncertainty, std::hypot(of_temperature, of_meter), 1e-4);
}

TEST(MotorWinding, OpenNeedsARangePastItsLimit) {
  EXPECT_EQ(motor_says(timer(), {winding("OL")}), "open");
  Typed low_range = winding("OL");
  low_range.range = "6 kohm";
  EXPECT_EQ(motor_says(timer(), {low_range}), "range-too-low");
  EXPECT_EQ(motor_says(timer(), {winding("OL"), winding("8 kohm")}), "comes-and-goes");
}

TEST(MotorWinding, LowWithItsWiresOnCondemnsNothing) {
  const Findings findings = judge(timer(), {winding("40 ohm", "25 degC", Connection::unstated)});
  EXPECT_EQ(text_of(findings, motor_winding), "low-connection-unstated");
  EXPECT_EQ(outcome_of(findings, motor_winding), Outcome::undecided);
}

TEST(MotorWinding, SaysWhyItIsSilent) {
  EXPECT_EQ(motor_says(board(), {winding("8 kohm")}), "no-motor");
  EXPECT_EQ(motor_says(timer(), {}), "not-read");
  EXPECT_EQ(motor_says(timer(), {winding("32 ohm", {}, Connection::in_circuit)}), "only-in-circuit");
  EXPECT_EQ(motor_says(ratings(R"({"type": "cam-timer"})"), {winding("8 kohm")}), "not-rated");
  EXPECT_EQ(text_of(judge(nullptr, {winding("8 kohm")}), motor_winding), "conducts");
  EXPECT_EQ(text_of(judge(nullptr, {winding("OL")}), motor_winding), "open");
}

std::string_view circuit_says(const ControlRatings& ratings, const Typed& typed) {
  return text_of(judge(ratings, {typed}), in_circuit);
}

TEST(InCircuit, NothingThereIsClosed) {
  const auto at = [](std::string_view which, std::string_view value, std::string_view position) {
    return contact(which, value, position, Connection::in_circuit);
  };
  EXPECT_EQ(circuit_says(timer(), at("defrost_contact", "0.3 ohm", "defrost")), "clears-nothing");
  EXPECT_EQ(circuit_says(timer(), at("defrost_contact", "37.9 ohm", "run")), "clears-nothing");
  EXPECT_EQ(circuit_says(timer(), at("defrost_contact", "8032 ohm", "defrost")), "everything-between-probes");
  EXPECT_EQ(circuit_says(timer(), at("run_contact", "OL", "run")), "everything-between-probes");
  EXPECT_EQ(circuit_says(timer(), at("run_contact", "OL", "defrost")), "open-means-nothing");
  EXPECT_EQ(circuit_says(board(), at("defrost_contact", "OL", "defrost")), "open-means-nothing");
  Typed unproved = at("defrost_contact", "OL", "defrost");
  unproved.supply = Supply::unstated;
  EXPECT_EQ(circuit_says(timer(), unproved), "high-not-proved");
}

TEST(InCircuit, WhatIsRightAloneIsNotCondemned) {
  const Typed open = contact("defrost_contact", "OL", "defrost", Connection::in_circuit);
  const Findings closed = judge(timer(), {contact("defrost_contact", "0.3 ohm", "defrost"), open});
  EXPECT_EQ(text_of(closed, in_circuit), "right-alone");
  EXPECT_EQ(outcome_of(closed, in_circuit), Outcome::undecided);
  EXPECT_THAT(advice_of(closed), ::testing::Not(::testing::Contains("lift-a-lead")));
  const Typed unstated = contact("defrost_contact", "0.3 ohm", "defrost", Connection::unstated);
  EXPECT_EQ(text_of(judge(timer(), {unstated, open}), in_circuit), "right-where-unstated");
  EXPECT_EQ(text_of(judge(timer(), {winding("8 kohm"), winding("OL", {}, Connection::in_circuit)}), in_circuit),
            "motor-right-alone");
}

TEST(InCircuit, FewOhmsFromLineToNeutralAreTheCompressor) {
  EXPECT_EQ(circuit_says(timer(), winding("4.9 ohm", {}, Connection::in_circuit)), "few-ohms");
  EXPECT_EQ(circuit_says(timer(), winding("32 ohm", {}, Connection::in_circuit)), "motor-beside-others");
  EXPECT_EQ(circuit_says(timer(), winding("OL", {}, Connection::in_circuit)), "motor-open");
  EXPECT_EQ(circuit_says(board(), winding("OL", {}, Connection::in_circuit)), "motor-beside-others");
  EXPECT_EQ(circuit_says(timer(), winding("8 kohm")), "no-in-circuit");
}

}  // namespace
}  // namespace ohmwright::defrost_control
