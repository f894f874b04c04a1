#include <charconv>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::cycles {
namespace {

// ISO C++ [charconv.from.chars]: the nearest double. Every number of up to 15 digits must come out the same.
TEST(PlainNumber, IsTheNearestDouble) {
  ReproducibleStream stream(20260301);
  for (int i = 0; i < 200000; ++i) {
    std::string text = stream.below(2) == 0 ? "-" : "";
    text += std::to_string(stream.below(10000000));
    const std::uint64_t behind = stream.below(9);
    if (behind > 0) text += '.';
    for (std::uint64_t digit = 0; digit < behind; ++digit) text += static_cast<char>('0' + stream.below(10));
    double expected = 0.0;
    std::from_chars(text.data(), text.data() + text.size(), expected);
    double value = 0.0;
    const char* end = plain_number(text.c_str(), '.', value);
    ASSERT_EQ(end, text.c_str() + text.size()) << text;
    ASSERT_EQ(value, expected) << text;
  }
}

TEST(PlainNumber, LeavesWhatIsNotPlain) {
  double value = 0.0;
  for (const char* text : {"", "-", ".", "nan", "1234567890123456", "0.1234567890123456"})
    EXPECT_EQ(plain_number(text, '.', value), nullptr) << text;
}

TEST(Numbers, InEveryWriting) {
  EXPECT_EQ(whole_number_text("1.5e3", '.'), 1500.0);
  EXPECT_EQ(whole_number_text("1,5E-1", ','), 0.15);
  EXPECT_EQ(whole_number_text("1,234.5", '.'), 1234.5);
  EXPECT_EQ(whole_number_text("1.234,5", ','), 1234.5);
  EXPECT_EQ(whole_number_text("1'234.5", '.'), 1234.5);
  EXPECT_EQ(whole_number_text("\xE2\x88\x92"
                              "18.3",
                              '.'),
            -18.3);
  EXPECT_EQ(whole_number_text("+7", '.'), 7.0);
  EXPECT_EQ(whole_number_text(".5", '.'), 0.5);
  for (const char* text : {"", "-", "abc", "1.2.3", "1e999", "--1", "1 2"})
    EXPECT_FALSE(whole_number_text(text, '.')) << text;
  const std::optional<NumberAndRest> with_unit = number_at_start("-18.3 degC", '.');
  ASSERT_TRUE(with_unit);
  EXPECT_EQ(with_unit->value, -18.3);
  EXPECT_EQ(with_unit->rest, "degC");
}

TEST(NoValue, IsSaidInManyWays) {
  for (const char* text : {"", "-", "---", "NaN", "null", "N/A", "#N/A", "OL", "  ", "**", "Err"})
    EXPECT_TRUE(says_no_value(text)) << text;
  for (const char* text : {"0", "-1", "on", "12:00"}) EXPECT_FALSE(says_no_value(text)) << text;
}

}  // namespace
}  // namespace ohmwright::cycles
