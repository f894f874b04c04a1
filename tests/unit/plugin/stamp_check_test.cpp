#include <cstring>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

template <std::size_t size>
void set(char (&field)[size] /* NOLINT(modernize-avoid-c-arrays): the stamp has them */, std::string_view text) {
  ASSERT_LE(text.size(), size);
  std::memset(field, 0, size);
  std::memcpy(field, text.data(), text.size());
}

PluginStamp fitting_stamp(std::string_view kinds = "fan-motor\tfan\tevaporator fan") {
  PluginStamp stamp{};
  set(stamp.magic, "ohmwright-stamp");
  stamp.size = sizeof(PluginStamp);
  stamp.abi = plugin_abi;
  set(stamp.build_tag, OHMWRIGHT_BUILD_TAG);
  set(stamp.compiler, "g++ 12");
  set(stamp.kinds, kinds);
  return stamp;
}

std::vector<std::string> reasons_for_kinds(std::string_view kinds) { return check_stamp(fitting_stamp(kinds)).reasons; }

TEST(StampCheck, AFittingStampGivesItsKindsAndAliases) {
  const CheckedStamp checked = check_stamp(fitting_stamp("fan-motor\tfan\tmoteur à cage\nheater\n"));
  EXPECT_THAT(checked.reasons, IsEmpty());
  EXPECT_EQ(checked.compiler, "g++ 12");
  ASSERT_EQ(checked.kinds.size(), 2U);
  EXPECT_EQ(checked.kinds[0].id, "fan-motor");
  EXPECT_THAT(checked.kinds[0].aliases, ElementsAre("fan", "moteur à cage"));
  EXPECT_EQ(checked.kinds[1].id, "heater");
  EXPECT_THAT(checked.kinds[1].aliases, IsEmpty());
}

TEST(StampCheck, WithoutItsMagicNothingElseIsRead) {
  PluginStamp stamp = fitting_stamp();
  stamp.magic[0] = 'O';
  const CheckedStamp checked = check_stamp(stamp);
  EXPECT_THAT(checked.reasons, ElementsAre("its stamp does not begin with \"ohmwright-stamp\""));
  EXPECT_THAT(checked.kinds, IsEmpty());
}

TEST(StampCheck, AStampOfAnotherSizeStillSaysWhichIsNewer) {
  PluginStamp stamp = fitting_stamp();
  stamp.size = 2048;
  stamp.abi = plugin_abi + 6;
  EXPECT_THAT(
      check_stamp(stamp).reasons,
      ElementsAre("its stamp has 2048 bytes, this program's 1016",
                  "it was built for plugin ABI 8, newer than this program's 2: update ohmwright, or rebuild the "
                  "plugin against it"));
}

TEST(StampCheck, TheBuildTagIsComparedPieceByPiece) {
  PluginStamp stamp = fitting_stamp();
  set(stamp.build_tag, "itanium libstdc++-cxx11abi0 debug-containers c++202302L boost107400 ptr8");
  EXPECT_THAT(check_stamp(stamp).reasons,
              ElementsAre("it was built with another standard library: \"libstdc++-cxx11abi0\", this program with "
                          "\"libstdc++-cxx11abi1\"",
                          "it was built with another container checks: \"debug-containers\", this program with "
                          "\"plain-containers\"",
                          "it was built with another C++ standard: \"c++202302L\", this program with \"c++202002L\"",
                          "rebuild the plugin against the installed ohmwright, with its compiler settings"));
}

TEST(StampCheck, ABuildTagOfOtherPiecesIsShownWhole) {
  PluginStamp stamp = fitting_stamp();
  set(stamp.build_tag, "itanium\x1b[31m");
  const std::vector<std::string> reasons = check_stamp(stamp).reasons;
  ASSERT_EQ(reasons.size(), 2U);
  EXPECT_EQ(reasons[0], "its build tag is \"itanium\\x1b[31m\", this program's \"" OHMWRIGHT_BUILD_TAG "\"");
  std::memset(stamp.build_tag, 'x', sizeof(stamp.build_tag));  // no terminating zero
  EXPECT_EQ(check_stamp(stamp).reasons[0], "its build tag is \"\", this program's \"" OHMWRIGHT_BUILD_TAG "\"");
}

TEST(StampCheck, APluginWithoutKindsOfItsOwnSaysThatItReadsKindFiles) {
  const CheckedStamp checked = check_stamp(fitting_stamp("*.kind.json"));
  EXPECT_THAT(checked.reasons, IsEmpty());
  EXPECT_THAT(checked.kinds, IsEmpty());
  EXPECT_TRUE(checked.reads_kind_files);
  EXPECT_FALSE(check_stamp(fitting_stamp()).reads_kind_files);
  EXPECT_THAT(reasons_for_kinds("heater\n*.kind.json"),
              ElementsAre("its kind \"*.kind.json\" must be named with a-z, 0-9 and -, beginning with a letter"));
}

TEST(StampCheck, MalformedKindsAreRefused) {
  EXPECT_THAT(reasons_for_kinds(""), ElementsAre("its stamp names no kind"));
  EXPECT_THAT(reasons_for_kinds("Fan Motor"),
              ElementsAre("its kind \"Fan Motor\" must be named with a-z, 0-9 and -, beginning with a letter"));
  EXPECT_THAT(reasons_for_kinds("fan-motor\n\nheater"),
              ElementsAre("its kind \"\" must be named with a-z, 0-9 and -, beginning with a letter"));
  EXPECT_THAT(reasons_for_kinds("2-pole-motor"),
              ElementsAre("its kind \"2-pole-motor\" must be named with a-z, 0-9 and -, beginning with a letter"));
  EXPECT_THAT(reasons_for_kinds("fan-motor\t"),
              ElementsAre("an alias of its kind \"fan-motor\" cannot be shown: \"\""));
  EXPECT_THAT(reasons_for_kinds("fan-motor\tfan\x1b]0;x\x07"),
              ElementsAre("an alias of its kind \"fan-motor\" cannot be shown: \"fan\\x1b]0;x\\x07\""));
  EXPECT_THAT(reasons_for_kinds("fan-motor\nfan-motor"), ElementsAre("its stamp names the kind \"fan-motor\" twice"));
  EXPECT_THAT(reasons_for_kinds(std::string(sizeof(PluginStamp::kinds), 'k')),
              ElementsAre("the list of kinds in its stamp has no end"));
}

}  // namespace
}  // namespace ohmwright
