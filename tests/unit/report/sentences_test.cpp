#include <string>

#include <gtest/gtest.h>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {
namespace {

std::string shown(Dimension dimension, double value) {
  const Sentences say{UnitPreferences{}};
  return with_plain_spaces(say("{value}", {{"value", AnyQuantity(dimension, value)}}));
}

std::string shown(double number) { return Sentences{UnitPreferences{}}("{number}", {{"number", number}}); }

// One rule: what was set with one digit (volts, watts, amperes: two) is shown so, what was read or computed has four;
// bare numbers have three, and none finer than a hundredth.
TEST(Sentences, ShowASettingAsItWasSet) {
  EXPECT_EQ(shown(Dimension::resistance, 0.2), "0.2 Ω");
  EXPECT_EQ(shown(Dimension::resistance, 1e6), "1 MΩ");
  EXPECT_EQ(shown(Dimension::resistance, 60e6), "60 MΩ");
  EXPECT_EQ(shown(Dimension::voltage, 500.0), "500 V");
  EXPECT_EQ(shown(Dimension::duration, 180.0), "3 min");
  EXPECT_EQ(shown(Dimension::voltage, 120.0), "120 V");  // plates have two digits
  EXPECT_EQ(shown(Dimension::power, 450.0), "450 W");
  EXPECT_EQ(shown(Dimension::current, 0.24), "0.24 A");
}

TEST(Sentences, ShowAComputedValueWithItsDigits) {
  EXPECT_EQ(shown(Dimension::resistance, 11e3), "11.00 kΩ");
  EXPECT_EQ(shown(Dimension::resistance, 10364.2), "10.36 kΩ");
  EXPECT_EQ(shown(Dimension::resistance, 0.20004), "0.2000 Ω");
  EXPECT_EQ(shown(Dimension::resistance, 0.0), "0 Ω");
  EXPECT_EQ(shown(Dimension::voltage, 118.5), "118.5 V");
}

TEST(Sentences, ShowAlikeWhatIsComparedByEye) {
  const Sentences say{UnitPreferences{}};
  const auto ohms = [](double value) { return AnyQuantity(Dimension::resistance, value); };
  EXPECT_EQ(with_plain_spaces(say("{a} of {b}", {{"a", ohms(8e3)}, {"b", ohms(10364.2)}})), "8.000 kΩ of 10.36 kΩ");
  EXPECT_EQ(with_plain_spaces(say("{a} of {b}", {{"a", ohms(11.8)}, {"b", ohms(0.2)}})), "11.80 Ω of 0.2 Ω");
  // what the sentence does not say is compared with nothing
  EXPECT_EQ(with_plain_spaces(say("{a}", {{"a", ohms(0.2)}, {"b", ohms(0.19437)}})), "0.2 Ω");
}

TEST(Sentences, ShowNoChanceAsNoneAndNoneAsCertain) {
  const auto chance = [](double percent) {
    return Sentences{UnitPreferences{}}("{chance_percent} %", {{"chance_percent", percent}});
  };
  EXPECT_EQ(chance(1e-9), "< 0.1 %");
  EXPECT_EQ(chance(99.99), "> 99.9 %");
  EXPECT_EQ(chance(53.2), "53.2 %");
  EXPECT_EQ(Sentences{UnitPreferences{}}("{off_percent} %", {{"off_percent", 0.00396}}), "0 %");
  EXPECT_EQ(Sentences{UnitPreferences{}}("{off_percent} %", {{"off_percent", 0.0125}}), "0.01 %");
}

TEST(Sentences, ShowBareNumbersNoFinerThanAHundredth) {
  EXPECT_EQ(shown(0.7063), "0.71");
  EXPECT_EQ(shown(-0.7194), "-0.72");
  EXPECT_EQ(shown(4.8412), "4.84");
  EXPECT_EQ(shown(-26.31), "-26.3");
  EXPECT_EQ(shown(3870.4), "3870");
  EXPECT_EQ(shown(0.0123), "0.0123");  // far below one it is no percent
}

}  // namespace
}  // namespace ohmwright
