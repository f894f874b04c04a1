#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/quantity/listing.hpp>

namespace ohmwright {
namespace {

TEST(Listing, SaysWhatIsAccepted) {
  EXPECT_EQ(one_of(std::vector<std::string>{"a"}), R"("a")");
  EXPECT_EQ(one_of(std::vector<std::string>{"a", "b", "c"}), R"("a", "b" or "c")");
  EXPECT_EQ(one_of(std::vector<std::string_view>{}), "");
}

TEST(Listing, SaysWhatThereIs) {
  EXPECT_EQ(listed(std::vector<std::string_view>{"a", "b"}), "a, b");
  EXPECT_EQ(listed(std::vector<std::string>{"a\x1b[2J"}), R"(a\x1b[2J)");
}

}  // namespace
}  // namespace ohmwright
