#include <optional>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {
namespace {

std::string refusal(std::string_view text, Dimension dimension = Dimension::resistance,
                    const StatedValueOptions& options = {}) {
  try {
    const StatedValue stated = parse_stated_value(text, dimension, options);
    return "accepted as " + std::to_string(stated.value.value_in_si());
  } catch (const InputError& error) {
    return error.what();
  }
}

TEST(StatedValueRefusal, OfAnotherDimension) {
  EXPECT_EQ(refusal("23 degC"), R"(expected a resistance, such as "11.0 kohm", got "23 degC")");
  EXPECT_EQ(refusal("11k", Dimension::temperature), R"(expected a temperature, such as "23 degC", got "11k")");
  EXPECT_EQ(refusal("25 m", Dimension::duration), R"(expected a duration, such as "25 min", got "25 m")");
  EXPECT_EQ(refusal("11 kohm +- 1 V"), R"(expected a resistance, such as "11.0 kohm", got "11 kohm +- 1 V")");
  EXPECT_EQ(
      refusal("23 C +- 1 V", Dimension::temperature),
      R"(expected a temperature, such as "23 degC", got "23 C +- 1 V": "V" is no unit of a temperature difference)");
}

TEST(StatedValueRefusal, OfASmallLetterThatCouldMeanAnotherUnit) {
  EXPECT_EQ(refusal("296 k", Dimension::temperature), R"(expected a temperature, such as "23 degC", got "296 k")");
  EXPECT_EQ(refusal("2 m"), R"(expected a resistance, such as "11.0 kohm", got "2 m")");
  EXPECT_EQ(refusal("23 deg", Dimension::temperature),
            R"(expected a temperature, such as "23 degC", got "23 deg": unknown unit "deg", did you mean "degC"?)");
}

TEST(StatedValueRefusal, OfNothing) {
  EXPECT_EQ(refusal(""), R"(expected a resistance, such as "11.0 kohm", got nothing)");
  EXPECT_EQ(refusal(" \t "), R"(expected a resistance, such as "11.0 kohm", got nothing)");
}

TEST(StatedValueRefusal, OfTextWithoutANumber) {
  EXPECT_EQ(refusal("abc"), R"(expected a resistance, such as "11.0 kohm", got "abc")");
  EXPECT_EQ(refusal("kohm"), R"(expected a resistance, such as "11.0 kohm", got "kohm")");
  EXPECT_EQ(refusal("."), R"(expected a resistance, such as "11.0 kohm", got ".")");
  EXPECT_EQ(refusal("--5 ohm"), R"(expected a resistance, such as "11.0 kohm", got "--5 ohm")");
}

TEST(StatedValueRefusal, OfABareNumberNamesTheMissingUnit) {
  EXPECT_EQ(
      refusal("11"),
      R"(expected a resistance, such as "11.0 kohm", got "11" without a unit; write "11 ohm" or "11k": a thousand lies between them)");
  EXPECT_EQ(refusal("11 +- 5 %"), R"(expected a resistance, such as "11.0 kohm", got "11 +- 5 %" without a unit)");
}

TEST(StatedValueRefusal, OfABareNumberProposeWhatIsUsual) {
  StatedValueOptions megohms;
  megohms.usual_unit = Unit::named("Mohm", Dimension::resistance);
  EXPECT_EQ(
      refusal("200", Dimension::resistance, megohms),
      R"(expected a resistance, such as "11.0 kohm", got "200" without a unit; write "200M" or "200k": a thousand lies between them)");
  EXPECT_EQ(
      refusal("1."),
      R"(expected a resistance, such as "11.0 kohm", got "1." without a unit; if a lone 1 at the left of the display means over-range, write "OL")");
  EXPECT_EQ(
      refusal("11."),
      R"(expected a resistance, such as "11.0 kohm", got "11." without a unit; write the digits behind the point, and the unit: "11.0 ohm")");
}

TEST(StatedValueRefusal, OfWhatIsNotFinite) {
  EXPECT_EQ(refusal("nan ohm"),
            R"(expected a resistance, such as "11.0 kohm", got "nan ohm", which is no finite number)");
  EXPECT_EQ(refusal("-Inf ohm"),
            R"(expected a resistance, such as "11.0 kohm", got "-Inf ohm", which is no finite number)");
  EXPECT_EQ(refusal("1 ohm +- infinity ohm"),
            R"(expected a resistance, such as "11.0 kohm", got "1 ohm +- infinity ohm", which is no finite number)");
}

TEST(StatedValueRefusal, OfNegativeValuesThatHaveNoMeaning) {
  EXPECT_EQ(refusal("-5 ohm"), R"(a resistance cannot be negative, got "-5 ohm")");
  EXPECT_EQ(refusal("\u22125 ohm"), "a resistance cannot be negative, got \"\u22125 ohm\"");
  EXPECT_EQ(refusal("-1 s", Dimension::duration), R"(a duration cannot be negative, got "-1 s")");
  EXPECT_EQ(refusal("11 kohm +- -1"), R"(an uncertainty cannot be negative, got "11 kohm +- -1")");
}

TEST(StatedValueRefusal, OfTemperaturesBelowAbsoluteZero) {
  EXPECT_EQ(refusal("-273.16 degC", Dimension::temperature),
            R"("-273.16 degC" is below absolute zero (-273.15 degC, -459.67 degF))");
  EXPECT_EQ(refusal("-1 K", Dimension::temperature), R"("-1 K" is below absolute zero (-273.15 degC, -459.67 degF))");
}

TEST(StatedValueRefusal, OfTextBehindTheValue) {
  EXPECT_EQ(refusal("11 kohm foo"),
            R"(expected a resistance, such as "11.0 kohm", got "11 kohm foo": cannot read the end, "foo")");
  EXPECT_EQ(refusal("11 kohm +10/-5 %"),
            R"(expected a resistance, such as "11.0 kohm", got "11 kohm +10/-5 %": cannot read the end, "+10/-5 %")");
  EXPECT_EQ(
      refusal("11 kohm\n"),
      R"(expected a resistance, such as "11.0 kohm", got "11 kohm\n": unknown unit "kohm\n", did you mean "kohm"?)");
}

TEST(StatedValueRefusal, OfNumbersThatNoDoubleHolds) {
  EXPECT_EQ(refusal("1e999 ohm"),
            R"(expected a resistance, such as "11.0 kohm", got "1e999 ohm", which is too large to be held)");
  EXPECT_EQ(
      refusal("1e999999999999999999999 ohm"),
      R"(expected a resistance, such as "11.0 kohm", got "1e999999999999999999999 ohm", which is too large to be held)");
  EXPECT_EQ(refusal("1e306 kohm"),
            R"(expected a resistance, such as "11.0 kohm", got "1e306 kohm", which is too large to be held)");
  EXPECT_EQ(refusal("1e308 min", Dimension::duration),
            R"(expected a duration, such as "25 min", got "1e308 min", which is too large to be held)");
  EXPECT_EQ(refusal("1e308 ohm +- 200 %"),
            R"(expected a resistance, such as "11.0 kohm", got "1e308 ohm +- 200 %", which is too large to be held)");
  EXPECT_EQ(refusal("1e-999 ohm"),
            R"(expected a resistance, such as "11.0 kohm", got "1e-999 ohm", which is too close to zero to be held)");
  EXPECT_EQ(refusal("1e-320 pF", Dimension::capacitance),
            R"(expected a capacitance, such as "12 uF", got "1e-320 pF", which is too close to zero to be held)");
}

TEST(StatedValueRefusal, OfCommas) {
  const std::string ending = R"( has a comma: write a decimal point, as in "11.0", and nothing between thousands)";
  EXPECT_EQ(refusal("11,0k"), "\"11,0k\"" + ending);
  EXPECT_EQ(refusal("11,000 ohm"), "\"11,000 ohm\"" + ending);
  EXPECT_EQ(refusal(",5 ohm"), "\",5 ohm\"" + ending);
  EXPECT_EQ(refusal("11 kohm +- 0,1"), "\"11 kohm +- 0,1\"" + ending);
}

TEST(StatedValueRefusal, OfSeparatorsBetweenThousands) {
  const std::string ending = R"( has a gap between digits: write nothing between thousands, as in "11000")";
  EXPECT_EQ(refusal("11 000 ohm"), "\"11 000 ohm\"" + ending);
  EXPECT_EQ(refusal("11'000 ohm"), "\"11'000 ohm\"" + ending);
  EXPECT_EQ(refusal("11_000 ohm"), "\"11_000 ohm\"" + ending);
  EXPECT_EQ(refusal("11\u00A0000 ohm"), "\"11\u00A0000 ohm\"" + ending);
  EXPECT_EQ(refusal("1.000.000 ohm"), R"("1.000.000 ohm" has more than one decimal point: write "1000.5")");
}

TEST(StatedValueRefusal, OfCharactersThatOnlyLookLikeANumber) {
  const auto ending = [](const std::string& code) {
    return " has " + code + R"(, which only looks like part of a number: write 0-9, "-" and ".")";
  };
  EXPECT_EQ(refusal("\uFF11\uFF11 ohm"), "\"\uFF11\uFF11 ohm\"" + ending("U+FF11"));
  EXPECT_EQ(refusal("1\u0661 ohm"), "\"1\u0661 ohm\"" + ending("U+0661"));
  EXPECT_EQ(refusal("\u20135 degC", Dimension::temperature), "\"\u20135 degC\"" + ending("U+2013"));
  EXPECT_EQ(refusal("1\u00B75 ohm"), "\"1\u00B75 ohm\"" + ending("U+00B7"));
  EXPECT_EQ(refusal("10\u00B2 ohm"), "\"10\u00B2 ohm\"" + ending("U+00B2"));
  EXPECT_EQ(refusal("\U0001D7CF ohm"), "\"\U0001D7CF ohm\"" + ending("U+1D7CF"));
}

TEST(StatedValueRefusal, OfAnUnknownUnitSuggestsTheNearest) {
  EXPECT_EQ(refusal("11 khom"),
            R"(expected a resistance, such as "11.0 kohm", got "11 khom": unknown unit "khom", did you mean "kohm"?)");
  EXPECT_EQ(refusal("23 degK", Dimension::temperature),
            R"(expected a temperature, such as "23 degC", got "23 degK": unknown unit "degK", did you mean "degC"?)");
  EXPECT_EQ(
      refusal("2800 rpn", Dimension::rotational_speed),
      R"(expected a rotational speed, such as "2800 rpm", got "2800 rpn": unknown unit "rpn", did you mean "rpm"?)");
  EXPECT_EQ(refusal("11 furlongs"),
            R"(expected a resistance, such as "11.0 kohm", got "11 furlongs": unknown unit "furlongs")");
  EXPECT_EQ(refusal("0x10"), R"(expected a resistance, such as "11.0 kohm", got "0x10": unknown unit "x10")");
  EXPECT_EQ(
      refusal("11 kohm +- 1 khom"),
      R"(expected a resistance, such as "11.0 kohm", got "11 kohm +- 1 khom": unknown unit "khom", did you mean "kohm"?)");
}

TEST(StatedValueRefusal, OfUncertaintiesThatAreIncompleteOrMeanNothing) {
  EXPECT_EQ(refusal("11 kohm \u00B1"), "\"11 kohm \u00B1\" states no uncertainty after \"+-\", such as \"+- 5 %\"");
  EXPECT_EQ(refusal("11 kohm +- x"), R"(expected a resistance, such as "11.0 kohm", got "11 kohm +- x")");
  EXPECT_EQ(refusal("23 degC +- 1 %", Dimension::temperature),
            R"("23 degC +- 1 %" has no meaning: a share of a temperature depends on its scale; write "+- 0.5 K")");
  EXPECT_EQ(refusal("23 +- 1 K", Dimension::temperature),
            R"("23 +- 1 K" leaves the unit of the temperature open: write "23 degC +- 1 K" or "296 K +- 1 K")");
}

TEST(StatedValueRefusal, OfBracketsAndLetterCodesThatContradict) {
  const std::string hint = R"(: brackets are for "(11.0 +- 0.1) kohm", the unit behind them)";
  EXPECT_EQ(refusal("(11 +- 1"),
            R"(expected a resistance, such as "11.0 kohm", got "(11 +- 1": the closing bracket is missing)");
  EXPECT_EQ(refusal("(11 kohm +- 1 kohm)"), "\"(11 kohm +- 1 kohm)\"" + hint);
  EXPECT_EQ(refusal("(11) kohm"), "\"(11) kohm\"" + hint);
  EXPECT_EQ(refusal("4k7 kohm"),
            R"(expected a resistance, such as "11.0 kohm", got "4k7 kohm": after a letter code only "ohm" may follow)");
}

TEST(StatedValueRefusal, OfLongTexts) {
  EXPECT_EQ(refusal(std::string(257, '1')),
            R"(expected a resistance, such as "11.0 kohm", got a text of 257 bytes; at most 256 are read)");
  EXPECT_EQ(refusal(std::string(250, '0') + "1 ohm"), "accepted as 1.000000");
}

TEST(StatedValueRefusal, ShowsNoControlCharacterRaw) {
  EXPECT_EQ(refusal("\x1b[2J"), R"(expected a resistance, such as "11.0 kohm", got "\x1b[2J")");
  EXPECT_EQ(refusal("11 \xff"), R"(expected a resistance, such as "11.0 kohm", got "11 \xff": unknown unit "\xff")");
}

TEST(StatedValueRefusal, NamesWhatElseTheCallerTakes) {
  StatedValueOptions options;
  options.or_else = R"(, or "OL")";
  EXPECT_EQ(refusal("abc", Dimension::resistance, options),
            R"(expected a resistance, such as "11.0 kohm", or "OL", got "abc")");
}

}  // namespace
}  // namespace ohmwright
