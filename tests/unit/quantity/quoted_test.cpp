#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {
namespace {

using namespace std::string_view_literals;

TEST(Quoted, PlainTextAndForeignLettersStayReadable) {
  EXPECT_EQ(quoted("11 kohm"), "\"11 kohm\"");
  EXPECT_EQ(quoted("11 k\u03A9 \u00B1 1 \u00B0C"), "\"11 k\u03A9 \u00B1 1 \u00B0C\"");
  EXPECT_EQ(quoted(""), "\"\"");
}

TEST(Quoted, QuotesAndBackslashesAreEscaped) { EXPECT_EQ(quoted(R"(a"b\c)"), R"("a\"b\\c")"); }

TEST(Quoted, ControlCharactersNeverReachTheTerminal) {
  EXPECT_EQ(quoted("a\n\r\t\x1b[31m\x7f\0b"sv), R"("a\n\r\t\x1b[31m\x7f\x00b")");
  EXPECT_EQ(quoted("\u0085\u009b31m"), R"("\u0085\u009b31m")");
}

TEST(Quoted, InvisibleAndTurningCharactersAreShown) {
  EXPECT_EQ(quoted("1\u202e2\u202c\u200b\ufeff"), R"("1\u202e2\u202c\u200b\ufeff")");
  EXPECT_EQ(quoted("\U000E0041"), R"("\U000e0041")");
}

TEST(Quoted, BrokenUtf8IsShownByteByByte) {
  EXPECT_EQ(quoted("\xff\xc3"), R"("\xff\xc3")");
  EXPECT_EQ(quoted("\xc0\x80"), R"("\xc0\x80")");          // overlong
  EXPECT_EQ(quoted("\xed\xa0\x80"), R"("\xed\xa0\x80")");  // half of a surrogate pair
  EXPECT_EQ(quoted("\xf4\x90\x80\x80"), R"("\xf4\x90\x80\x80")");
}

TEST(Printable, LeavesPlainTextAloneAndEscapesTheRest) {
  EXPECT_EQ(printable(R"(/data/kΩ "a"\b.json)"), R"(/data/kΩ "a"\b.json)");
  EXPECT_EQ(printable("a\n\x1b[31m\a\x7f\u009b\xff"), R"(a\n\x1b[31m\x07\x7f\u009b\xff)");
  EXPECT_EQ(printable(std::string(1000, 'x')).size(), 1000U);
}

TEST(Printable, KeepsTheLinesOfAMessage) {
  EXPECT_EQ(printable_lines("one\ntwo\x1b[2J\n"), "one\ntwo\\x1b[2J\n");
  EXPECT_EQ(printable_lines(""), "");
}

TEST(Quoted, LongTextIsCutBetweenCodePoints) {
  EXPECT_EQ(quoted("\u03A9\u03A9\u03A9", 2), "\"\u03A9\u03A9...\"");
  EXPECT_EQ(quoted("\u03A9\u03A9", 2), "\"\u03A9\u03A9\"");
  EXPECT_EQ(ohmwright::quoted(std::string(1000, 'x')).size(), 60U + 5U);
}

}  // namespace
}  // namespace ohmwright
