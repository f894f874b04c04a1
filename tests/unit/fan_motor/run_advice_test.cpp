#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "fan_motor_fixture.hpp"
#include "fan_motor_part.hpp"

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Not;

const Descriptor& descriptor() {
  static const FanMotorKind kind;
  return kind.descriptor();
}

Reading alone(const std::string& measurand, const std::string& value, const std::string& test_volts = {}) {
  const Dimension dimension = descriptor().measurands.at(index_of(descriptor().measurands, measurand)).dimension;
  Reading reading{.measurand = measurand, .observed = parse_observed(value, dimension, {})};
  reading.connection = Connection::lead_off;
  reading.supply = Supply::proved_dead;
  reading.conditions.push_back({"part_temperature", parse_stated_value("25 degC +- 1 K", Dimension::temperature)});
  if (!test_volts.empty())
    reading.conditions.push_back({"test_voltage", parse_stated_value(test_volts, Dimension::voltage)});
  return reading;
}

Findings judged(const FanMotorRatings& known, const std::vector<Reading>& readings) {
  MeterFunction ohms;
  ohms.dimension = Dimension::resistance;
  for (const double full_scale : {600.0, 60e6})
    ohms.ranges.push_back({AnyQuantity(Dimension::resistance, full_scale), 0.9, 3,
                           AnyQuantity(Dimension::resistance, full_scale / 6000.0)});
  const MeterSet meters(
      {{"basic", "Basic meter", "test", {ohms}, parse_stated_value("0.2 ohm", Dimension::resistance)}});
  const FanMotorPart part{std::optional(known)};
  Findings findings;
  part.judge(Evidence(descriptor(), readings, meters), {}, findings);
  return findings;
}

std::vector<std::string> advice_on(const FanMotorRatings& known, const std::vector<Reading>& readings) {
  const Findings findings = judged(known, readings);
  std::vector<std::string> ids;
  for (const Advice& advice : findings.advice()) ids.emplace_back(descriptor().advice[advice.text].id);
  return ids;
}

Reading live(const std::string& measurand, const std::string& value) {
  Reading reading = alone(measurand, value);
  reading.supply = Supply::live;
  reading.connection = Connection::unstated;
  reading.conditions.clear();
  return reading;
}

// EN 50699: 500 V and 1 Mohm; what an ohmmeter shows proves no insulation.
TEST(RunAdvice, ComesAfterTheInsulation) {
  const FanMotorRatings known = plain();
  const Reading good = alone("winding", "82 ohm");
  EXPECT_THAT(advice_on(known, {good}), ElementsAre("frame-too", "run-it"));
  const auto by_ohmmeter = advice_on(known, {good, alone("insulation", "OL")});
  EXPECT_THAT(by_ohmmeter, Contains("insulation-tester"));
  EXPECT_THAT(by_ohmmeter, Not(Contains("run-it")));
  EXPECT_THAT(advice_on(known, {good, alone("insulation", "1 Mohm", "500 V")}), Not(Contains("run-it")));
  EXPECT_THAT(advice_on(known, {good, alone("insulation", "20 Mohm", "500 V")}), ElementsAre("run-it"));
}

// What was tested with 500 V is tested once more, not for the first time; what runs is left in.
TEST(RunAdvice, AsksForNothingThatWasRead) {
  const FanMotorRatings known = plain();
  EXPECT_THAT(advice_on(known, {alone("insulation", "1 Mohm", "500 V")}), ElementsAre("test-once-more"));
  EXPECT_THAT(advice_on(known, {live("speed", "1200 rpm +- 5 rpm"), live("supply", "60 V +- 1 V")}),
              Contains("look-upstream"));
  EXPECT_THAT(advice_on(known, {live("speed", "1200 rpm +- 5 rpm"), live("supply", "60 V +- 1 V")}),
              Not(Contains("volts-at-plug")));
  const FanMotorRatings electronic = ratings(
      R"({"construction": "electronically-commutated", "voltage": "12 V", "speed": "2800 rpm", "retry": "180 s"})");
  Reading fed = live("supply", "12.1 V +- 0.1 V");
  for (const auto& [seconds, expected] : {std::pair{"60 s", true}, std::pair{"200 s", false}}) {
    fed.conditions = {{"watched", parse_stated_value(seconds, Dimension::duration)}};
    const auto advice = advice_on(electronic, {fed, live("speed", "0 rpm +- 1 rpm")});
    EXPECT_EQ(std::find(advice.begin(), advice.end(), "watch-a-retry") != advice.end(), expected) << seconds;
  }
}

// Common practice, no source: ice that rubs makes a good motor slow, a loose wheel a fast one.
TEST(RunAdvice, ASpeedIsClearedOfWheelAndAirBeforeItCondemns) {
  const Reading mains = live("supply", "119 V +- 1 V");
  Reading slow = live("speed", "1000 rpm +- 5 rpm");
  EXPECT_THAT(advice_on(plain(), {slow, mains}), ElementsAre("spin-by-hand"));
  slow.conditions = {{"coast", parse_stated_value("3 s +- 0.5 s", Dimension::duration)}};
  EXPECT_THAT(advice_on(plain(), {slow, mains}), Contains("before-buying"));
  const FanMotorRatings electronic = ratings(
      R"({"construction": "electronically-commutated", "voltage": "12 V", "speed": "2800 rpm", "pulses_per_turn": 2})");
  const Reading fed = live("supply", "12 V +- 0.1 V");
  EXPECT_THAT(advice_on(electronic, {live("tach", "60 Hz +- 0.1 Hz"), fed}),
              ElementsAre("look-at-tachometer", "spin-by-hand"));
  Reading fast = live("speed", "3400 rpm +- 5 rpm");
  EXPECT_THAT(advice_on(electronic, {fast, fed}), ElementsAre("clear-its-air"));
  fast.states = {{"air", "clear"}};
  EXPECT_THAT(advice_on(electronic, {fast, fed}), Contains("before-buying"));
}

// Three terminals are wound as two are: their ohms say nothing of the insulation either.
TEST(RunAdvice, ThreeTerminalsAreReadToTheFrameToo) {
  const FanMotorRatings known =
      ratings(R"({"construction": "capacitor-run", "voltage": "230 V", "frequency": "50 Hz", "poles": 4,
                  "capacitance": "2 uF"})");
  EXPECT_THAT(advice_on(known, {alone("common_run", "100 ohm +- 0.1 ohm"), alone("common_start", "120 ohm +- 0.1 ohm"),
                                alone("start_run", "220 ohm +- 0.1 ohm")}),
              Contains("frame-too"));
  EXPECT_THAT(advice_on(known, {alone("capacitance", "2 uF +- 0.01 uF")}), Contains("frame-too"));
}

TEST(RunAdvice, NothingIsRunThatReadsOpen) {
  Reading hot = alone("winding", "OL");
  hot.conditions.front().value = parse_stated_value("80 degC +- 1 K", Dimension::temperature);
  EXPECT_THAT(advice_on(plain(), {hot}), ElementsAre("cool-down", "touch-the-probes"));
  Reading there = alone("winding", "OL");
  there.connection = Connection::in_circuit;
  there.conditions.clear();
  Reading swapped = there;
  swapped.measurand = "winding_swapped";
  EXPECT_THAT(advice_on(plain(), {there, swapped}), ElementsAre("cool-down", "touch-the-probes", "lift-a-lead"));
}

TEST(RunAdvice, ABadCapacitorIsReplacedBeforeItRuns) {
  const FanMotorRatings known =
      ratings(R"({"construction": "capacitor-run", "voltage": "230 V", "frequency": "50 Hz", "poles": 4,
                  "capacitance": "2 uF"})");
  EXPECT_THAT(advice_on(known, {alone("capacitance", "1.5 uF +- 0.01 uF")}),
              ElementsAre("discharge-first", "fit-capacitor"));
  EXPECT_THAT(advice_on(known, {alone("capacitance", "1.5 uF +- 0.01 uF"), alone("insulation", "OL")}),
              ElementsAre("insulation-tester", "discharge-first", "fit-capacitor"));
}

/// Everything that a page says of them.
std::string page_of(const FanMotorRatings& known, const std::vector<Reading>& readings) {
  const Findings findings = judged(known, readings);
  std::string page;
  for (const Finding& finding : findings.findings())
    if (finding.outcome != Outcome::silent)
      page.append(descriptor().rules[finding.rule].texts[finding.text].english).append("\n");
  for (const Advice& advice : findings.advice()) page.append(descriptor().advice[advice.text].english).append("\n");
  return page;
}

/// What was read to the frame of an electronic motor, as many ways as there are.
std::vector<Reading> ways_to_read_a_frame(const std::vector<std::string>& values) {
  std::vector<Reading> ways;
  for (const std::string& value : values)
    for (const std::string& test : std::vector<std::string>{"", "100 V", "500 V", "1000 V"})
      for (const Moisture moisture : {Moisture::unstated, Moisture::wet, Moisture::dry})
        for (const Connection connection : {Connection::lead_off, Connection::unstated}) {
          ways.push_back(alone("insulation", value, test));
          ways.back().moisture = moisture;
          ways.back().connection = connection;
        }
  return ways;
}

// Common practice, no source: 500 V destroys electronics.
TEST(RunAdvice, NoElectronicMotorIsSentToAnInsulationTester) {
  const std::string forbidden = "Do not test it with 500 V.";
  for (const std::string& earth_class : std::vector<std::string>{"I", "II", "III"}) {
    const FanMotorRatings known =
        ratings(R"({"construction": "electronically-commutated", "voltage": "12 V", "speed": "2800 rpm",
                    "earth_class": ")" +
                earth_class + "\"}");
    for (const Reading& reading : ways_to_read_a_frame({"0.1 Mohm", "0.25 Mohm", "20 Mohm", "OL"})) {
      std::string page = page_of(known, {reading});
      if (const std::size_t at = page.find(forbidden); at != std::string::npos) page.erase(at, forbidden.size());
      for (const std::string_view asked :
           {"est it with 500 V", "again with 500 V", "once more with 500 V", "500V", "at 500 V", "500 V insulation"})
        EXPECT_EQ(page.find(asked), std::string::npos) << asked << ", class " << earth_class << "\n" << page;
    }
  }
}

// What leaks is not fed to be read.
TEST(RunAdvice, NothingLiveIsReadOfAnElectronicMotorThatLeaks) {
  const FanMotorRatings known = ratings(
      R"({"construction": "electronically-commutated", "voltage": "12 V", "speed": "2800 rpm", "earth_class": "III"})");
  for (const Reading& leak : ways_to_read_a_frame({"0.1 Mohm"}))
    EXPECT_THAT(advice_on(known, {leak}), Not(Contains("supply-then-tach")));
}

// 8.2 and 14.6 ohm make no 30 ohm: a gap of 7.2 ohm, which no display showed, a hundredth of it within its limits.
TEST(RunAdvice, NoPointIsMovedInADifference) {
  const FanMotorRatings known =
      ratings(R"({"construction": "capacitor-run", "voltage": "230 V", "frequency": "50 Hz"})");
  const auto advice = advice_on(
      known, {alone("common_run", "8.4 ohm"), alone("common_start", "14.8 ohm"), alone("start_run", "30.2 ohm")});
  EXPECT_THAT(advice, Not(Contains("misread-decimal")));
}

}  // namespace
}  // namespace ohmwright::fan_motor
