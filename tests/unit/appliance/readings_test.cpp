// Readings of an appliance from files: what they give, and what is refused in them, word for word.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/document/document.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::HasSubstr;

class ApplianceReadings : public ::testing::Test {
 protected:
  Appliance appliance = appliance_of(shipped_text("upright-timer-bimetal-120v"));

  std::vector<StatedReading> read(const std::string& text) const {
    return read_appliance_readings(parse_document(text, "site.json"), appliance);
  }
  std::string refusal(const std::string& text) const {
    try {
      read(text);
      return "";
    } catch (const DocumentError& error) {
      return error.what();
    }
  }
  std::string refusal_of_reading(const std::string& members) const {
    return refusal("{\"readings\": [\n{" + members + "}\n]}");
  }
};

TEST_F(ApplianceReadings, GiveWhatTheFileSays) {
  const auto readings = read(R"({
    "appliance": "upright-timer-bimetal-120v",
    "readings": [
      {"test_point": "harness", "value": "32.4 ohm ± 0.2 ohm", "note": "hard to reach"},
      {"test_point": "thermostat-alone", "set_up": "chilled", "value": "closed"},
      {"test_point": "harness-to-earth", "value": "OL"},
      {"test_point": "volts-defrost", "states": {"timer.position": "defrost"},
       "temperatures": {"coil": "-12 degC ± 1 K"}, "value": "118 V"}
    ]
  })");
  ASSERT_EQ(readings.size(), 4U);
  EXPECT_EQ(readings[0].note, "hard to reach");
  EXPECT_EQ(readings[0].label, "harness in site.json, line 4");
  EXPECT_DOUBLE_EQ(std::get<StatedValue>(readings[0].observed).value.value_in_si(), 32.4);
  EXPECT_NEAR(*std::get<StatedValue>(readings[0].observed).half_width, 0.2, 1e-12);
  EXPECT_EQ(appliance.set_ups[*readings[1].set_up].id, "chilled");
  EXPECT_EQ(std::get<ContactState>(readings[1].observed), ContactState::closed);
  EXPECT_TRUE(std::holds_alternative<OverRange>(readings[2].observed));
  ASSERT_EQ(readings[3].states.size(), 1U);
  ASSERT_EQ(readings[3].temperatures.size(), 1U);
  EXPECT_NEAR(readings[3].temperatures[0].temperature.value.value_in_si(), 261.15, 1e-9);
}

TEST_F(ApplianceReadings, CircumstancesOfTheirOwnBecomeASetUpThatNoStepOffers) {
  const std::size_t of_the_file = appliance.set_ups.size();
  const auto readings = read(R"({"readings": [
    {"test_point": "plug", "value": "OL"},
    {"test_point": "plug", "states": {"timer.position": "defrost"}, "value": "OL"},
    {"test_point": "harness", "states": {"timer.position": "defrost"}, "value": "32 ohm"},
    {"test_point": "plug", "set_up": "chilled", "states": {"timer.position": "defrost"}, "value": "OL"}
  ]})");
  EXPECT_FALSE(circumstances_of(readings[0], appliance));
  EXPECT_EQ(circumstances_of(readings[1], appliance), of_the_file);
  EXPECT_EQ(circumstances_of(readings[2], appliance), of_the_file);  // the same again
  EXPECT_EQ(circumstances_of(readings[3], appliance), of_the_file + 1);
  EXPECT_TRUE(appliance.set_ups[of_the_file].only_stated);
  EXPECT_EQ(appliance.set_ups[of_the_file + 1].based_on, readings[3].set_up);
}

TEST_F(ApplianceReadings, RefuseNamesThatAreNotThere) {
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harnes", "value": "OL")"),
            "site.json:2: /readings/0/test_point: there is no test point \"harnes\"; did you mean \"harness\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "set_up": "chiled", "value": "OL")"),
            "site.json:2: /readings/0/set_up: there is no set-up \"chiled\"; did you mean \"chilled\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "states": {"tmer.position": "run"}, "value": "OL")"),
            "site.json:2: /readings/0/states/tmer.position: there is no part \"tmer\"; did you mean \"timer\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "states": {"timer.positon": "run"}, "value": "OL")"),
            "site.json:2: /readings/0/states/timer.positon: a defrost-control has no state \"positon\"; did you mean "
            "\"position\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "states": {"timer.position": "runn"}, "value": "OL")"),
            "site.json:2: /readings/0/states/timer.position: position cannot be \"runn\"; did you mean \"run\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "temperatures": {"coyl": "-3 degC"}, "value": "OL")"),
            "site.json:2: /readings/0/temperatures/coyl: there is no zone \"coyl\"; did you mean \"coil\"?");
}

TEST_F(ApplianceReadings, RefuseValuesThatAreNoReading) {
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "value": "32")"),
            "site.json:2: /readings/0/value: expected a resistance, such as \"11.0 kohm\", or \"open\", \"closed\" or "
            "\"OL\", got \"32\" without a unit; write \"32 ohm\" or \"32k\": a thousand lies between them");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "volts-run", "value": "OL")"),
            "site.json:2: /readings/0/value: expected a voltage, such as \"120 V\", got \"OL\"");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "amperes-defrost", "value": "120 V")"),
            "site.json:2: /readings/0/value: expected a current, such as \"0.5 A\", got \"120 V\"");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "harness", "temperatures": {"coil": "3 ohm"}, "value": "OL")"),
            "site.json:2: /readings/0/temperatures/coil: expected a temperature, such as \"23 degC\", got \"3 ohm\"");
}

TEST_F(ApplianceReadings, RefuseFilesOfAnotherForm) {
  EXPECT_EQ(refusal(R"({"appliance": "upright", "readings": [{"test_point": "plug", "value": "OL"}]})"),
            "site.json:1: /appliance: these readings are of the appliance \"upright\", not "
            "\"upright-timer-bimetal-120v\"; name that one, or leave \"appliance\" out");
  EXPECT_EQ(refusal(R"({"readings": []})"), "site.json:1: /readings: found a list of 0; expected a list of 1 or more");
  EXPECT_EQ(refusal(R"({})"), "site.json:1: the field \"readings\" is missing");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "plug")"),
            "site.json:2: /readings/0: the field \"value\" is missing: what the meter showed, such as \"8.0 kohm\" or "
            "\"OL\"");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "plug", "value": "OL", "nota": "x")"),
            "site.json:2: /readings/0/nota: unknown field \"nota\"; did you mean \"note\"?");
  EXPECT_EQ(refusal_of_reading(R"("test_point": "plug", "value": 32)"),
            "site.json:2: /readings/0/value: found the number 32; expected text: what the meter showed, such as \"8.0 "
            "kohm\" or \"OL\"");
}

TEST_F(ApplianceReadings, TellEveryMistakeAtOnce) {
  const std::string refused = refusal(R"({"readings": [
    {"test_point": "plugg", "value": "OL"},
    {"test_point": "plug", "value": "3 V"}
  ]})");
  EXPECT_THAT(refused, HasSubstr("site.json:2: /readings/0/test_point: there is no test point \"plugg\""));
  EXPECT_THAT(refused, HasSubstr("site.json:3: /readings/1/value: expected a resistance"));
}

TEST_F(ApplianceReadings, WhatLocateWroteIsReadBack) {
  const auto readings = read(R"({"appliance": "upright-timer-bimetal-120v", "standing": "open", "possible_faults": [],
    "parts": [], "nothing_wrong": 0.5, "steps": [], "readings": [
    {"test_point": "harness", "temperatures": {"coil": {"value": 263.15, "half_width": 2, "unit": "K"}},
     "observed": {"value": 32.25, "half_width": 0.5, "unit": "ohm"}, "probability_unexplained": 0.001},
    {"test_point": "plug", "observed": {"state": "over-range"}, "probability_unexplained": 0}
  ]})");
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_DOUBLE_EQ(std::get<StatedValue>(readings[0].observed).value.value_in_si(), 32.25);
  EXPECT_DOUBLE_EQ(*readings[0].temperatures[0].temperature.half_width, 2.0);
  EXPECT_EQ(refusal(R"({"appliance": "upright-timer-bimetal-120v", "standing": "open", "possible_faults": [],
    "parts": [], "nothing_wrong": 0.5, "steps": [], "readings": [
    {"test_point": "harness", "observed": {"value": 32.25, "unit": "V"}, "probability_unexplained": 0.001}]})"),
            "site.json:3: /readings/0/observed: expected a value in \"ohm\", got \"V\"");
  EXPECT_EQ(refusal(R"({"appliance": "upright-timer-bimetal-120v", "standing": "open", "possible_faults": [],
    "parts": [], "nothing_wrong": 0.5, "steps": [], "readings": [
    {"test_point": "harness", "temperatures": {"coil": {"value": -3, "unit": "K"}},
     "observed": {"state": "open"}, "probability_unexplained": 0.001}]})"),
            "site.json:3: /readings/0/temperatures/coil: a temperature lies above 0 K");
}

}  // namespace
}  // namespace ohmwright::testing
