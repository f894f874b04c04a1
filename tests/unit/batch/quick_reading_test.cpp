// What the fast reader takes, the strict one must take, and make the same of it.

#include <bit>

#include <gtest/gtest.h>
// after gtest, as its own header asks
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <ohmwright/batch/line_readings.hpp>
#include <ohmwright/batch/quick_line.hpp>
#include <ohmwright/batch/strict_line.hpp>
#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright::batch {
namespace {

class OneKind : public PartSource {
 public:
  const Descriptor& kind(const std::string& name) override {
    if (name == "test-part" || name == "tester") return testing::test_descriptor();
    throw InputError("no such kind");
  }
  JudgedPart part(const std::string& /*kind*/, const std::string& /*ratings*/) override { return {}; }
};

class QuickReading : public ::testing::Test {
 protected:
  struct Quick {
    bool taken = false;
    std::string id, lot, kind, ratings;
    std::vector<Reading> readings;
  };

  Quick quick(std::string line) {
    const std::size_t size = line.size();
    line.append(bytes_behind_line, '}');  // what follows must not matter
    Quick result;
    if (!reader_.read(std::string_view(line).substr(0, size), fields_)) return result;
    if (!fields_.kind.empty() && fields_.kind != "test-part") return result;
    result.taken = make_line_readings(fields_, testing::test_descriptor(), meters_, quantities_, result.readings);
    result.id = fields_.id;
    result.lot = fields_.lot;
    result.kind = fields_.kind;
    result.ratings = fields_.ratings;
    return result;
  }

  /// "" where both agree, or the strict reader decides alone.
  std::string disagreement(const std::string& line) {
    const Quick fast = quick(line);
    if (!fast.taken) return "";
    StrictLine strict;
    try {
      read_strict_line(line, {"test-part", ""}, kinds_, meters_, strict);
    } catch (const Error& error) {
      return "taken, but the strict parser says: " + std::string(error.what());
    }
    if (fast.id != strict.id || fast.lot != strict.lot || fast.kind != strict.named_kind ||
        fast.ratings != strict.named_ratings)
      return "another id, lot, kind or ratings";
    if (fast.readings.size() != strict.readings.size()) return "another number of readings";
    for (std::size_t i = 0; i < fast.readings.size(); ++i)
      if (!equal(fast.readings[i], strict.readings[i])) return "reading " + std::to_string(i + 1) + " differs";
    return "";
  }

  OneKind kinds_;
  MeterSet meters_{{testing::basic_meter("0.2 ohm")}};
  QuickLineReader reader_;
  QuickQuantities quantities_;
  LineFields fields_;
};

const std::string usual =
    R"({"id":"s-17","lot":"L07","kind":"test-part","ratings":"class-a","readings":[{"measurand":"resistance",)"
    R"("value":"11.45 kohm","connection":"lead-off","moisture":"dry","supply":"unplugged","meter":"basic",)"
    R"("conditions":{"part_temperature":"23 degC +- 1 K","line_voltage":"121 V"}},{"value":"OL"}]})";

TEST_F(QuickReading, TakesTheUsualLineAsTheStrictParserDoes) {
  EXPECT_TRUE(quick(usual).taken);
  EXPECT_EQ(disagreement(usual), "");
  EXPECT_TRUE(quick(R"( { "readings" : [ { "value" : "1k" } ] } )").taken);
}

// What simdjson's on-demand interface lets pass when it is not asked for it (its own documentation), and more.
TEST_F(QuickReading, LeavesToTheStrictParserWhatItWouldRefuse) {
  for (const std::string& line : {
           std::string(R"({"readings":[{"value":"11 kohm"}],"lot":tru})"),
           std::string(R"({"readings":[{"value":"11 kohm"},]})"),
           std::string(R"({"readings":[{"value":"11 kohm"}],})"),
           std::string(R"({"readings":[{"value":"11 kohm"}}})"),
           std::string(R"({"readings":[{"value":"11 kohm"}]})") + "}",
           std::string(R"({"readings":[{"value":"11 kohm"}]} {})"),
           std::string(R"({"readings":[{"value":"11 kohm"}]} 1)"),
           std::string(R"({"readings":[{"value":"11 kohm"}]})").substr(0, 30),
           std::string(R"({"readings":[{"value":"11 kohm","value":"12 kohm"}]})"),
           std::string(R"({"id":"a","id":"b","readings":[{"value":"11 kohm"}]})"),
           std::string(R"({"readings":[{"value":"11 kohm"}],"readings":[{"value":"11 kohm"}]})"),
           std::string(
               R"({"readings":[{"value":"11 kohm","conditions":{"line_voltage":"1 V","line_voltage":"2 V"}}]})"),
           std::string("{\"id\":\"a\x7F\",\"readings\":[{\"value\":\"11 kohm\"}]}"),
           std::string("{\"id\":\"a\x01\",\"readings\":[{\"value\":\"11 kohm\"}]}"),
           std::string("{\"id\":\"\xff\",\"readings\":[{\"value\":\"11 kohm\"}]}"),
           std::string(R"({"id":"\ud800","readings":[{"value":"11 kohm"}]})"),
           std::string(R"({"id":"","readings":[{"value":"11 kohm"}]})"),
           std::string(R"({"readings":[{"value":"11 kohm","conditions":{}}],"x":1e999})"),
           std::string(R"({"readings":[{"value":"-11 kohm"}]})"),
           std::string(R"({"readings":[{"value":"11"}]})"),
           std::string(R"({"readings":[{"value":"11 kohm","supply":"on"}]})"),
           std::string(R"({"readings":[{"value":"11 kohm","conditions":{"part_temperature":"20 K"}}]})"),
           std::string(R"([{"value":"11 kohm"}])"),
       }) {
    EXPECT_FALSE(quick(line).taken) << line;
    StrictLine strict;
    EXPECT_THROW(read_strict_line(line, {"test-part", ""}, kinds_, meters_, strict), Error) << line;
  }
}

RC_GTEST_FIXTURE_PROP(QuickReading, NeverTakesADamagedLineThatTheStrictParserRefuses, ()) {
  static const std::string bytes = "{}[]\",:\\ \t0e-.Ku\xC2\xB1\xFF\x01";
  std::string line = usual;
  const int changes = *rc::gen::inRange(1, 4);
  for (int i = 0; i < changes; ++i) {
    const auto place = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(line.size())));
    const auto byte = static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(bytes.size())));
    const int how = *rc::gen::inRange(0, 3);
    if (how == 0) line.erase(place, 1);
    if (how == 1) line.insert(place, 1, bytes[byte]);
    if (how == 2) line[place] = bytes[byte];
  }
  const std::string trouble = disagreement(line);
  if (!trouble.empty()) RC_LOG() << line << '\n' << trouble << '\n';
  RC_ASSERT(trouble.empty());
}

std::string written_number() {
  std::string text = *rc::gen::element<std::string>("", "", "-", "+");
  text += std::to_string(*rc::gen::inRange<std::int64_t>(0, 100'000'000));
  const int places = *rc::gen::inRange(0, 9);
  if (places > 0) text += '.';
  for (int i = 0; i < places; ++i) text += static_cast<char>('0' + *rc::gen::inRange(0, 10));
  return text;
}

RC_GTEST_PROP(QuickQuantity, ReadsWhatTheFullReaderReadsBitForBit, ()) {
  static QuickQuantities quick;
  struct Written {
    Dimension dimension;
    const char* unit;
    const char* half_unit;
  };
  const auto written = *rc::gen::elementOf(std::vector<Written>{{Dimension::resistance, " kohm", " ohm"},
                                                                {Dimension::resistance, "M", ""},
                                                                {Dimension::resistance, " k ohm", " %"},
                                                                {Dimension::temperature, "C", " K"},
                                                                {Dimension::temperature, " \u00B0F", ""},
                                                                {Dimension::temperature, " degC", " degC"},
                                                                {Dimension::temperature, " K", " degF"},
                                                                {Dimension::voltage, "V", "mV"},
                                                                {Dimension::capacitance, " uF", " nF"},
                                                                {Dimension::current, " mA", ""},
                                                                {Dimension::duration, " min", " s"},
                                                                {Dimension::ratio, "", "%"},
                                                                {Dimension::resistance, "", ""}});
  std::string text = written_number() + written.unit;
  text += *rc::gen::element<std::string>("", "", " +- ", "\u00B1", " \u00B1 ", " +/-");
  if (text.find("+-") != std::string::npos || text.find("\u00B1") != std::string::npos || text.find("+/") != text.npos)
    text += written_number() + written.half_unit;
  const std::optional<StatedValue> fast = quick.read(text, written.dimension);
  if (!fast) return;
  const StatedValue full = parse_stated_value(text, written.dimension);  // throws: then the fast one took too much
  RC_LOG() << text << '\n';
  RC_ASSERT(std::bit_cast<std::uint64_t>(fast->value.value_in_si()) ==
            std::bit_cast<std::uint64_t>(full.value.value_in_si()));
  RC_ASSERT(*fast == full);
}

TEST(QuickQuantity, TakesThePlainForms) {
  QuickQuantities quick;
  for (const char* text : {"11.45 kohm", "11.45kohm", "4k", "0 ohm", "1 Mohm", "11.0 kohm +- 0.1 kohm"})
    EXPECT_TRUE(quick.read(text, Dimension::resistance)) << text;
  for (const char* text : {"23C", "23 degC", "-20.5 degC +- 1 K", "23 \u00B0C \u00B1 1"})
    EXPECT_TRUE(quick.read(text, Dimension::temperature)) << text;
  for (const char* text : {"", "11", "4k7", "OL", "1e3 ohm", "11.0.0 ohm", "-1 ohm", "1 ohm +- 5 %", "11,0 ohm"})
    EXPECT_FALSE(quick.read(text, Dimension::resistance)) << text;
}

}  // namespace
}  // namespace ohmwright::batch
