#include <gtest/gtest.h>

#include <ohmwright/report/shell_word.hpp>

namespace ohmwright {
namespace {

// The quoting rules of the POSIX shell, 2.2.2 Single-Quotes: everything between two single quotes is as it stands.
TEST(ShellWord, IsQuotedOnlyWhereAShellWouldReadMoreIntoIt) {
  EXPECT_EQ(shell_word("upright-timer-bimetal-120v"), "upright-timer-bimetal-120v");
  EXPECT_EQ(shell_word("./kitchen/upright.json"), "./kitchen/upright.json");
  EXPECT_EQ(shell_word("my upright.json"), "'my upright.json'");
  EXPECT_EQ(shell_word("$(true)"), "'$(true)'");
  EXPECT_EQ(shell_word("cook's"), "'cook'\\''s'");
  EXPECT_EQ(shell_word(""), "''");
}

}  // namespace
}  // namespace ohmwright
