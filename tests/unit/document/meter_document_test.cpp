#include <gtest/gtest.h>

#include <ohmwright/document/meter_document.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

Meter meter_from(std::string_view text) { return read_meter(parse_document(text, "m.json")); }
std::string refusal(std::string_view text) {
  return testing::refusal_of([text] { meter_from(text); });
}

constexpr const char* good_meter = R"({"name": "m", "title": "M", "source": "test", "functions": [
  {"dimension": "resistance", "one_means_over_range": true, "ranges": [
    {"full_scale": "600 ohm", "percent_of_reading": "0.9 %", "counts": 3, "resolution": "0.1 ohm"},
    {"full_scale": "6 kohm", "percent_of_reading": "0.9 %", "counts": 2, "resolution": "1 ohm"}]},
  {"dimension": "temperature", "ranges": [{"full_scale": "400 degC", "percent_of_reading": "0 %", "counts": 3, "resolution": "1 K"}]}],
 "lead_resistance": "0.2 ohm +- 0.05 ohm", "low_impedance": true})";

TEST(MeterDocument, ReadsAMeter) {
  const Meter meter = meter_from(good_meter);
  EXPECT_EQ(meter.name, "m");
  ASSERT_EQ(meter.functions.size(), 2U);
  EXPECT_TRUE(meter.functions[0].one_means_over_range);
  EXPECT_FALSE(meter.functions[1].one_means_over_range);
  const MeterRange& range = meter.functions[0].ranges[1];
  EXPECT_EQ(range.full_scale, AnyQuantity(Dimension::resistance, 6000.0));
  EXPECT_EQ(range.percent_of_reading, 0.9);
  EXPECT_EQ(range.counts, 2.0);
  EXPECT_EQ(range.resolution, AnyQuantity(Dimension::resistance, 1.0));
  EXPECT_EQ(meter.functions[1].ranges[0].full_scale, AnyQuantity(Dimension::temperature, 673.15));
  EXPECT_EQ(meter.functions[1].ranges[0].resolution, AnyQuantity(Dimension::temperature_difference, 1.0));
  EXPECT_EQ(meter.lead_resistance.value, AnyQuantity(Dimension::resistance, 0.2));
  EXPECT_EQ(meter.lead_resistance.half_width, 0.05);
  EXPECT_TRUE(meter.low_impedance);
}

TEST(MeterDocument, ATesterOfInsulationIsAFunctionOfItsOwn) {
  const Meter meter = meter_from(R"({"name": "m", "title": "M", "source": "test", "functions": [
  {"dimension": "resistance", "insulation_test": true, "ranges": [
    {"full_scale": "400 Mohm", "percent_of_reading": "3 %", "counts": 5, "resolution": "0.1 Mohm"}]}]})");
  EXPECT_EQ(function_for(meter, Dimension::resistance), nullptr);
  ASSERT_NE(function_for(meter, Dimension::resistance, true), nullptr);
  EXPECT_EQ(refusal(R"({"name": "m", "title": "M", "source": "test", "functions": [
  {"dimension": "voltage", "insulation_test": true, "ranges": [
    {"full_scale": "600 V", "percent_of_reading": "3 %", "counts": 5, "resolution": "0.1 V"}]}]})"),
            "m.json:2: /functions/0/insulation_test: insulation is read as a resistance; the function reads a voltage");
}

TEST(MeterDocument, TellsAllThatIsWrong) {
  EXPECT_EQ(
      refusal(R"({"name": "m", "title": "M", "sourse": "test", "functions": [
{"dimension": "resistance", "ranges": [
{"full_scale": "6 kohm", "percent_of_reading": "0.9", "counts": 3, "resolution": "0.1 V"},
{"full_scale": "6 kohm", "percent_of_reading": "0.9 %", "counts": -3, "resolution": "1 ohm"},
{"full_scale": "600 ohm", "percent_of_reading": "101 %", "counts": 3, "resolution": "700 ohm"},
{"full_scale": "600 ohm", "percent_of_reading": "1 %", "counts": 3, "resolution": "700 ohm"}]},
{"dimension": "resistance", "ranges": [
{"full_scale": "6 kohm", "percent_of_reading": "1 %", "counts": 3, "resolution": "1 ohm"}]},
{"dimension": "resistanse", "ranges": []}]})"),
      "m.json:1: the field \"source\" is missing: where the figures come from: a standard, a data sheet, or \"common "
      "practice, "
      "no source\" (is it \"sourse\"?)\n"
      "m.json:1: /sourse: unknown field \"sourse\"; did you mean \"source\"?\n"
      "m.json:1: the field \"lead_resistance\" is missing; a meter that reads resistance states that of its leads, "
      "such as "
      "\"0.2 ohm +- 0.05 ohm\"\n"
      "m.json:3: /functions/0/ranges/0/percent_of_reading: expected a percentage, such as \"0.9 %\", got \"0.9\"\n"
      "m.json:3: /functions/0/ranges/0/resolution: expected a resistance, such as \"11.0 kohm\", got \"0.1 V\"\n"
      "m.json:4: /functions/0/ranges/1/counts: found the number -3; expected at least 0: the part of the accuracy in "
      "steps of the "
      "last digit\n"
      "m.json:5: /functions/0/ranges/2/percent_of_reading: found 101 %; expected 0 % to 100 %\n"
      "m.json:6: /functions/0/ranges/3/resolution: the resolution is more than zero and less than the range; found "
      "\"700 ohm\"\n"
      "m.json:6: /functions/0/ranges/3: ranges come smallest first; \"600 ohm\" does not reach past the range before "
      "it\n"
      "m.json:7: /functions/1: the dimension \"resistance\" stands twice; put its ranges into one list\n"
      "m.json:9: /functions/2/dimension: found \"resistanse\"; expected \"resistance\", \"voltage\", \"current\", "
      "\"power\", "
      "\"energy\", \"frequency\", \"capacitance\", \"inductance\", \"duration\", \"temperature\", \"rotational_speed\" "
      "or \"ratio\"; "
      "did you mean \"resistance\"?\n"
      "m.json:9: /functions/2/ranges: found a list of 0; expected a list of 1 or more: the ranges, smallest first");
}

}  // namespace
}  // namespace ohmwright
