// Files written for people, and what is added to them on site.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/file_text.hpp>
#include <ohmwright/appliance/found_on_site.hpp>
#include <ohmwright/document/document.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::HasSubstr;

TEST(FileText, WritesTheShippedFilesAsTheyStand) {
  for (const std::string& name : shipped_appliances())
    EXPECT_EQ(file_text(parse_document(shipped_text(name), name).root), shipped_text(name)) << name;
}

TEST(FileText, ReadsBackWhatItWrote) {
  const std::string text = R"({"a": "q\"\\\n\tµ", "b": [1, -0.25, 1e300, true, null], "c": {}, "d": []})";
  const std::string once = file_text(parse_document(text, "file").root);
  EXPECT_EQ(file_text(parse_document(once, "file").root), once);
  EXPECT_THAT(once, HasSubstr(R"("a": "q\"\\\n\tµ")"));
  EXPECT_THAT(once, HasSubstr("[1, -0.25, 1e+300, true, null]"));
}

ValueNode file() { return parse_document(fan_heater(), "file").root; }

TEST(FoundOnSite, PutsASpliceAtATerminal) {
  // A thermal link stands for the splice: any kind with two terminals does.
  const Appliance before = appliance_of(fan_heater());
  const LoadedKind& kind = built_kinds().kind("thermal-link");
  const std::string text = file_text(with_splice(file(), before, {2, 0}, kind, "tf-128"));
  const Appliance after = appliance_of(text);
  ASSERT_EQ(after.parts.size(), 5U);
  const PlacedPart& splice = after.parts.back();
  EXPECT_EQ(splice.id, "splice");
  EXPECT_EQ(splice.title, "Splice at Heater");
  EXPECT_EQ(after.nodes[*splice.nodes[0]], "B");
  EXPECT_EQ(splice.nodes[1], after.parts[2].nodes[0]);  // where the heater's lead is now
  EXPECT_EQ(after.test_points.back().id, "splice-alone");
  EXPECT_EQ(after.test_points.back().behind, before.parts[2].behind);
  for (const ApplianceFinding& finding : check_appliance(after)) EXPECT_FALSE(is_wrong(finding.form));

  const Appliance twice =
      appliance_of(file_text(with_splice(parse_document(text, "file").root, after, {2, 0}, kind, "tf-128")));
  EXPECT_EQ(twice.parts.back().id, "splice-2");
}

TEST(FoundOnSite, RefusesASpliceInTheAir) {
  const Appliance appliance = appliance_of(fan_heater());
  try {
    with_splice(file(), appliance, {3, 2}, built_kinds().kind("thermal-link"), "");  // the fan's start winding
    FAIL();
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(), "nothing is connected to fan.start, so no splice can be there");
  }
}

TEST(FoundOnSite, AddsAPart) {
  const FoundPart second{"second", "Second heater", &built_kinds().kind("heater"), "heater-2kw-230v", {"B", "N", "PE"}};
  const Appliance after = appliance_of(file_text(with_part(file(), second)));
  EXPECT_EQ(after.parts.back().title, "Second heater");
  EXPECT_EQ(after.parts.back().nodes[2], after.supply.earth);
  EXPECT_EQ(after.test_points.back().id, "second-alone");
  FoundPart short_of_nodes = second;
  short_of_nodes.nodes = {"B"};
  try {
    with_part(file(), short_of_nodes);
    FAIL();
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(), "a heater has 3 terminals; name the nodes of two or more of them, such as L,N");
  }
}

}  // namespace
}  // namespace ohmwright::testing
