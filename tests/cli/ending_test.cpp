#include "ending.hpp"

#include <sstream>
#include <stdexcept>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {
namespace {

struct Ended {
  int code = -1;
  std::string err;
};

Ended ended(const std::function<int()>& run) {
  std::ostringstream err;
  const int code = ending_of(run, err);
  return {code, err.str()};
}

TEST(Ending, IsWhatTheVerbGave) {
  EXPECT_EQ(ended([] { return 3; }).code, 3);
  EXPECT_EQ(ended([] { return 3; }).err, "");
}

TEST(Ending, OfARefusalSaysWhyInText) {
  const Ended refused = ended([]() -> int { throw InputError("a\x1b[31m\a\nb"); });
  EXPECT_EQ(refused.code, 2);
  EXPECT_EQ(refused.err, "ohmwright: a\\x1b[31m\\x07\nb\n");
  EXPECT_EQ(ended([]() -> int { throw Error(ErrorCategory::plugin, "p"); }).code, 4);
}

TEST(Ending, OfAnythingElseIsOurMistakeInOneLine) {
  const Ended known = ended([]() -> int { throw std::runtime_error("a\nb"); });
  EXPECT_EQ(known.code, 70);
  EXPECT_EQ(known.err, "ohmwright: internal error: a\\nb; please report it with the words you typed\n");
  const Ended unknown = ended([]() -> int { throw 5; });
  EXPECT_EQ(unknown.code, 70);
  EXPECT_EQ(unknown.err,
            "ohmwright: internal error: something was thrown that is no error; please report it with the words you "
            "typed\n");
}

}  // namespace
}  // namespace ohmwright::cli
