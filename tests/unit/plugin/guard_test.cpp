#include <gtest/gtest.h>

#include <ohmwright/plugin/guard.hpp>

namespace ohmwright {
namespace {

TEST(OneLine, LeavesWhatCanBeShown) {
  for (const char* text : {"", "plain", "a \"quoted\" word", "C:\\path", "11 k\u03A9 \u00B1 5 %"})
    EXPECT_EQ(one_line(text), text);
}

TEST(OneLine, WritesOutWhatWouldDisturbATerminal) {
  EXPECT_EQ(one_line("a\nb\rc\td\x1b[2Je\x7f"), "a\\nb\\rc\\td\\x1b[2Je\\x7f");
  EXPECT_EQ(one_line("\xE2\x80\xAE"), "\\u202e");
  EXPECT_EQ(one_line("\xFF"), "\\xff");
  EXPECT_EQ(one_line(std::string_view("a\0b", 3)), "a\\x00b");
}

TEST(OneLine, DoesSoOnce) { EXPECT_EQ(one_line(one_line("a\nb")), one_line("a\nb")); }

TEST(OneLine, EndsSomewhere) {
  EXPECT_EQ(one_line(std::string(1001, 'x')), std::string(1000, 'x') + "...");
  EXPECT_EQ(one_line("abcdef", 3), "abc...");
}

}  // namespace
}  // namespace ohmwright
