#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright {
namespace {

TEST(Error, InputErrorCarriesItsTextAndCategory) {
  const InputError error("expected a resistance");
  EXPECT_STREQ(error.what(), "expected a resistance");
  EXPECT_EQ(error.category(), ErrorCategory::input);
}

TEST(Error, DocumentErrorTellsEveryProblemWithItsPlace) {
  const DocumentError error("part.json", {{"/ratings/beta", 7, "not a number"}, {"", 0, "\"kind\" is missing"}});
  EXPECT_STREQ(error.what(), "part.json:7: /ratings/beta: not a number\npart.json: \"kind\" is missing");
  EXPECT_EQ(error.file(), "part.json");
  ASSERT_EQ(error.problems().size(), 2U);
  EXPECT_EQ(error.problems()[0].line, 7);
}

TEST(Error, DocumentErrorIsOneLineEachWhateverTheNamesHold) {
  const DocumentError error("a\x1b[31m\n.json", {{"/na\nme", 7, "not\a number"}});
  EXPECT_STREQ(error.what(), R"(a\x1b[31m\n.json:7: /na\nme: not\x07 number)");
}

}  // namespace
}  // namespace ohmwright
