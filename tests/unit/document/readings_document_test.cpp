#include <gtest/gtest.h>

#include <ohmwright/document/readings_document.hpp>

#include "temporary_folder.hpp"
#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::test_descriptor;

std::vector<Reading> readings_from(std::string_view text, const MeterSet* meters = nullptr) {
  return read_readings(parse_document_to_check(text, "r.json"), test_descriptor(), meters);
}
std::string refusal(std::string_view text, const MeterSet* meters = nullptr) {
  return testing::refusal_of([&] { readings_from(text, meters); });
}

TEST(ReadingsDocument, ReadsValuesWithTheirCircumstances) {
  const std::vector<Reading> readings = readings_from(R"({"kind": "tester", "readings": [
    {"label": "cold", "value": "11.0 kohm", "repeats": ["11.1 kohm", "10.9 kohm"], "connection": "lead-off", "moisture": "wet",
     "supply": "proved-dead", "meter": "basic", "range": "60 kohm",
     "conditions": {"part_temperature": {"value": "0 degC ± 0.2 K", "error_source": "ice bath"}, "line_voltage": "121 V"}},
    {"measurand": "speed", "value": "2800 rpm", "connection": "in-circuit", "moisture": "dry", "supply": "live"},
    {"value": "OL Mohm", "supply": "unplugged"}, {"value": "open"}]})");
  ASSERT_EQ(readings.size(), 4U);
  const Reading& cold = readings[0];
  EXPECT_EQ(cold.label, "cold");
  EXPECT_EQ(cold.measurand, "resistance");  // the kind's first
  EXPECT_EQ(std::get<StatedValue>(cold.observed).value, AnyQuantity(Dimension::resistance, 11000.0));
  EXPECT_EQ(cold.repeats, (std::vector<double>{11100.0, 10900.0}));
  EXPECT_EQ(cold.connection, Connection::lead_off);
  EXPECT_EQ(cold.moisture, Moisture::wet);
  EXPECT_EQ(cold.supply, Supply::proved_dead);
  EXPECT_EQ(cold.meter, "basic");
  EXPECT_EQ(cold.range, AnyQuantity(Dimension::resistance, 60000.0));
  ASSERT_EQ(cold.conditions.size(), 2U);
  EXPECT_EQ(cold.conditions[0].id, "part_temperature");
  EXPECT_EQ(cold.conditions[0].value.value, AnyQuantity(Dimension::temperature, 273.15));
  EXPECT_EQ(cold.conditions[0].value.half_width, 0.2);
  EXPECT_EQ(cold.conditions[0].error_source, "ice bath");
  EXPECT_FALSE(cold.conditions[0].uncertainty_assumed);
  EXPECT_EQ(cold.conditions[1].value.half_width, 1.0);  // the kind's
  EXPECT_TRUE(cold.conditions[1].uncertainty_assumed);
  EXPECT_EQ(readings[1].measurand, "speed");
  EXPECT_EQ(readings[1].connection, Connection::in_circuit);
  EXPECT_EQ(readings[1].supply, Supply::live);
  EXPECT_EQ(readings[1].range, std::nullopt);
  EXPECT_TRUE(std::holds_alternative<OverRange>(readings[2].observed));
  EXPECT_EQ(readings[2].supply, Supply::unplugged);
  EXPECT_EQ(std::get<ContactState>(readings[3].observed), ContactState::open);
}

TEST(ReadingsDocument, ALoneOneIsOverRangeOnlyOnAMeterThatShowsItSo) {
  Meter old = testing::basic_meter("0.2 ohm");
  old.functions[0].one_means_over_range = true;
  old.name = "old";
  const MeterSet meters({testing::basic_meter("0.2 ohm"), old});
  EXPECT_TRUE(std::holds_alternative<OverRange>(
      readings_from(R"({"readings": [{"value": "1", "meter": "old"}]})", &meters)[0].observed));
  EXPECT_EQ(refusal(R"({"readings": [{"value": "1"}]})", &meters),
            "r.json:1: /readings/0/value: expected a resistance, such as \"11.0 kohm\", or \"open\", \"closed\", "
            "\"beep\", \"no beep\" or "
            "\"OL\", got \"1\" without a unit; write \"1 ohm\" or \"1k\": a thousand lies between them");
  EXPECT_EQ(refusal(R"({"readings": [{"value": "1 ohm", "meter": "odl"}]})", &meters),
            "r.json:1: /readings/0/meter: no meter is called \"odl\"; known meters: basic, old");
}

TEST(ReadingsDocument, TellsTheProblemsOfAllEntriesAtOnce) {
  EXPECT_EQ(
      refusal(R"({"kind": "heater", "readings": [
{"value": "23 degC"},
{"value": "11 kohm", "measurand": "resistence"},
{"value": "11 kohm", "conditions": {"part_temprature": "23 degC",
"line_voltage": "23 degC"}},
{"value": 11000, "connection": "off"},
{"value": "OL", "repeats": ["11 kohm", "12 kohm ± 1 kohm"]},
{"valu": "11 kohm"}]})"),
      "r.json:1: /kind: the file is about the kind \"heater\"; expected \"test-part\"\n"
      "r.json:2: /readings/0/value: expected a resistance, such as \"11.0 kohm\", or \"open\", \"closed\", \"beep\", "
      "\"no beep\" or "
      "\"OL\", got \"23 degC\"\n"
      "r.json:3: /readings/1/measurand: a test-part has no measurand \"resistence\"; did you mean \"resistance\"?\n"
      "r.json:4: /readings/2/conditions/part_temprature: a test-part has no condition \"part_temprature\"; did you "
      "mean "
      "\"part_temperature\"?\n"
      "r.json:5: /readings/2/conditions/line_voltage: expected a voltage, such as \"120 V\", got \"23 degC\"\n"
      "r.json:6: /readings/3/connection: found \"off\"; expected \"lead-off\" or \"in-circuit\"\n"
      "r.json:6: /readings/3/value: found the number 11000; expected text: what the meter showed, such as \"11.0 "
      "kohm\", \"OL\" or \"> 200 Mohm\"\n"
      "r.json:7: /readings/4/repeats/1: a repeated reading carries no uncertainty: their scatter tells it\n"
      "r.json:7: /readings/4/repeats: only a value can be repeated, not \"OL\"\n"
      "r.json:8: /readings/5: the field \"value\" is missing: what the meter showed, such as \"11.0 kohm\", \"OL\" "
      "or \"> 200 Mohm\" (is it \"valu\"?)\n"
      "r.json:8: /readings/5/valu: unknown field \"valu\"; did you mean \"value\"?");
}

TEST(ReadingsDocument, TellsANameThatStandsTwiceWithAllElseThatIsWrong) {
  EXPECT_EQ(
      refusal("{\"readings\": [\n{\"value\": 5,\n\"value\": \"11 kohm\"},\n{\"valeu\": \"1 ohm\"}]}"),
      "r.json:2: /readings/0/value: found the number 5; expected text: what the meter showed, such as \"11.0 kohm\", "
      "\"OL\" or \"> 200 Mohm\"\n"
      "r.json:3: /readings/0/value: the field \"value\" stands twice, first on line 2; keep one\n"
      "r.json:4: /readings/1: the field \"value\" is missing: what the meter showed, such as \"11.0 kohm\", \"OL\" or "
      "\"> 200 Mohm\" (is it \"valeu\"?)\n"
      "r.json:4: /readings/1/valeu: unknown field \"valeu\"; did you mean \"value\"?");
}

TEST(ReadingsDocument, SaysWhichKindItIsAbout) {
  EXPECT_EQ(*kind_named_in(parse_document(R"({"kind": "tester"})", "r")), "tester");
  EXPECT_EQ(kind_named_in(parse_document("[]", "r")), nullptr);
}

}  // namespace
}  // namespace ohmwright
