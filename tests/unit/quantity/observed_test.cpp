#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {
namespace {

std::string read(std::string_view text, const ObservedOptions& options = {}) {
  try {
    return exact_text(parse_observed(text, Dimension::resistance, options));
  } catch (const InputError& error) {
    return std::string("refused: ") + error.what();
  }
}

ObservedOptions switch_options() {
  ObservedOptions options;
  options.values = false;
  options.contact_words = true;
  options.continuity_sound = true;
  return options;
}

TEST(Observed, ReadsANumberWithItsUnit) {
  EXPECT_EQ(read("11.0 kohm +- 1 %"), "11000 ohm +- 110 ohm");
  EXPECT_EQ(read("0.1 ohm"), "0.1 ohm");
  EXPECT_EQ(read("0 ohm"), "0 ohm");
}

TEST(Observed, ReadsOverRangeAsMetersShowIt) {
  for (const std::string_view text : {"OL", "ol", " OL ", "O.L", "0.L", "0L", ".OL", ".0L", "OL.", "0l", "OVLD", "ovld",
                                      "OVER", "over", "OVERLOAD", "Overload"}) {
    EXPECT_EQ(read(text), "OL") << text;
  }
}

TEST(Observed, KeepsTheUnitBesideOverRange) {
  EXPECT_EQ(read("OL Mohm"), "OL Mohm");
  EXPECT_EQ(read("0.L k\u03A9"), "OL kohm");
  EXPECT_EQ(read("OL degC"), R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got "OL degC")");
}

TEST(Observed, ReadsTheEndOfARangeWhereItIsTaken) {
  ObservedOptions options;
  options.names_range_end = true;
  EXPECT_EQ(read(">200M", options), "> 2e+08 ohm");
  EXPECT_EQ(read("> 200 Mohm", options), "> 2e+08 ohm");
  EXPECT_EQ(read(">200M +- 1 %", options),
            "refused: \">200M +- 1 %\" is past a range, which has no uncertainty; leave the ± out");
  EXPECT_EQ(read(">", options), R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got nothing)");
  EXPECT_EQ(read(">200M").rfind("refused: expected a resistance", 0), 0U);
}

TEST(Observed, TakesNoWordThatNoMeterShows) {
  for (const std::string_view text : {"O.F.", "OF", "OLL", "O L", "inf"})
    EXPECT_EQ(read(text).rfind("refused: expected a resistance", 0), 0U) << text;
}

TEST(Observed, OverRangeOfARatioHasNoUnitOne) {
  EXPECT_THROW(parse_observed("0L. 1", Dimension::ratio), InputError);  // found by fuzzing
  EXPECT_EQ(exact_text(parse_observed("OL %", Dimension::ratio)), "OL %");
}

TEST(Observed, AOneAloneIsOverRangeOnlyIfTheMeterShowsItSo) {
  EXPECT_EQ(
      read("1"),
      R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got "1" without a unit; write "1 ohm" or "1k": a thousand lies between them)");
  ObservedOptions options;
  options.lone_one_is_over = true;
  EXPECT_EQ(read("1", options), "OL");
  EXPECT_EQ(read("1.", options), "OL");
  EXPECT_EQ(read("1 .", options), "OL");
  EXPECT_EQ(read("1 ohm", options), "1 ohm");
  options.default_unit = Unit::si(Dimension::resistance);
  EXPECT_EQ(read("1", options), "OL");
  EXPECT_EQ(read("1.0", options), "1 ohm");
}

TEST(Observed, ReadsASwitchByItsWordOrTheBuzzer) {
  EXPECT_EQ(read("open", switch_options()), "open");
  EXPECT_EQ(read("Closed", switch_options()), "closed");
  EXPECT_EQ(read("beep", switch_options()), "closed");
  EXPECT_EQ(read("no beep", switch_options()), "open");
  EXPECT_EQ(read("OL", switch_options()), "OL");
}

TEST(Observed, TakesOnlyWhatIsAllowed) {
  EXPECT_EQ(
      read("open"),
      R"(refused: "open" is no reading of this: write what the meter showed, "OL" of an open part, the ohms of a )"
      R"(shorted one ("0.2 ohm"))");
  EXPECT_EQ(read("beep"), R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got "beep")");
  EXPECT_EQ(read("0.3 ohm", switch_options()),
            R"(refused: expected "open", "closed", "beep", "no beep" or "OL", got "0.3 ohm")");
  EXPECT_EQ(read("", switch_options()),
            R"(refused: expected "open", "closed", "beep", "no beep" or "OL", got nothing)");
  ObservedOptions options;
  options.over_range = false;
  EXPECT_EQ(read("OL", options), R"(refused: expected a resistance, such as "11.0 kohm", got "OL")");
}

TEST(Observed, RefusalsOfNumbersNameTheWordsToo) {
  EXPECT_EQ(read("23 degC"), R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got "23 degC")");
  EXPECT_EQ(read(""), R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got nothing)");
  EXPECT_EQ(
      read(std::string(300, 'O')),
      R"(refused: expected a resistance, such as "11.0 kohm", or "OL", got a text of 300 bytes; at most 256 are read)");
}

TEST(Observed, ReadsBackItsOwnText) {
  ObservedOptions options;
  options.contact_words = true;
  for (const std::string_view text : {"OL", "OL Mohm", "open", "closed", "4700 ohm +- 235 ohm"}) {
    EXPECT_EQ(read(text, options), text);
  }
}

}  // namespace
}  // namespace ohmwright
