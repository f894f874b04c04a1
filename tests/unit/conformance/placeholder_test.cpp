// What the conformance kit takes for a text that somebody has still to write.

#include <gtest/gtest.h>

#include <ohmwright/conformance/kit/kit.hpp>

namespace ohmwright {
namespace {

TEST(Placeholder, IsAWordThatSaysSoInWhateverCase) {
  for (const char* text : {"PLACEHOLDER: who says how often it opens", "A generic class (placeholder figures)",
                           "Write it. (PLACEHOLDER)", "Placeholder"})
    EXPECT_TRUE(holds_placeholder(text)) << text;
  EXPECT_FALSE(holds_placeholder("placeholders_of"));
}

TEST(Placeholder, IsANoteToOneself) {
  for (const char* text : {"TODO", "its resistance, TBD", "FIXME: look it up", "TODO: title"})
    EXPECT_TRUE(holds_placeholder(text)) << text;
  for (const char* text : {"en todo el circuito", "STODOLA", "IEC 60539-1"})
    EXPECT_FALSE(holds_placeholder(text)) << text;
}

TEST(Placeholder, IsAFieldThatNobodyFilledIn) {
  for (const char* text : {"@TITLE@", "Ratings of @KIND@", "a @ b @CLASS@"})
    EXPECT_TRUE(holds_placeholder(text)) << text;
  for (const char* text : {"12.5k@20C", "@", "@@", "a@B@c", "11 k @ 25 C"}) {
    EXPECT_EQ(holds_placeholder(text), std::string_view(text) == "a@B@c") << text;
  }
}

}  // namespace
}  // namespace ohmwright
