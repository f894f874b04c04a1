// What a kind of a file says of itself.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/descriptor_check.hpp>

#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

template <class Row>
std::vector<std::string_view> ids(const std::vector<Row>& rows) {
  std::vector<std::string_view> found;
  for (const Row& row : rows) found.push_back(row.id);
  return found;
}

TEST(DescriptorOfAFile, SaysWhatTheFileSays) {
  const auto kind = coil();
  const Descriptor& d = kind->descriptor();
  EXPECT_EQ(d.id, "test-coil");
  EXPECT_EQ(d.title, "Coil for tests");
  EXPECT_EQ(d.text_domain, "ohmwright-test-coil");
  EXPECT_THAT(d.roles, ElementsAre("opens-water"));
  EXPECT_THAT(d.terminals, ElementsAre("a", "b"));
  EXPECT_THAT(ids(d.measurands), ElementsAre("resistance", "contact", "current"));
  EXPECT_TRUE(d.measurands[1].takes_contact_state && d.measurands[1].takes_bare_number);
  EXPECT_FALSE(d.measurands[0].takes_contact_state || d.measurands[0].takes_bare_number);
  EXPECT_THAT(ids(d.conditions), ElementsAre("part_temperature", "line_voltage"));
  EXPECT_EQ(d.conditions[0].option, "at");
  EXPECT_EQ(d.conditions[0].default_half_width, 1.0);
  EXPECT_EQ(d.conditions[1].default_unit, "V");
  EXPECT_THAT(ids(d.rules), ElementsAre("winding", "switch", "current"));
  EXPECT_TRUE(d.rules[0].essential);
  EXPECT_THAT(ids(d.procedures), ElementsAre("ohms", "ends", "amps"));
  EXPECT_THAT(ids(d.procedures[0].steps), ElementsAre("step-1", "step-2"));
  EXPECT_THAT(ids(d.fault_modes), ElementsAre("open", "shorted-turns", "bypassed"));
  EXPECT_EQ(d.fault_modes[0].symptoms.at(0).probability, 0.9);
  EXPECT_THAT(d.fault_modes[0].looks_upstream, ElementsAre("opens-water"));
  ASSERT_THAT(d.charts, SizeIs(1));
  EXPECT_EQ(d.charts[0].to, AnyQuantity(Temperature::from_celsius(50.0)));
  EXPECT_THAT(descriptor_problems(d, {"test-coil", {"spool"}}), IsEmpty());
}

TEST(DescriptorOfAFile, LivesOnWithoutTheDocument) {
  const auto kind = coil();  // the document went when it was made
  EXPECT_EQ(kind->descriptor().rules[0].texts[1].english, "high: {measured}");
}

TEST(DescriptorOfAFile, HoldsTheTextsThatARuleCanSay) {
  const auto kind = coil();
  EXPECT_THAT(ids(kind->descriptor().rules[0].texts),
              ElementsAre("within", "high", "low", "undecided", "within-connection-unstated", "connection-unstated",
                          "readings-disagree", "over-range", "range-too-low", "range-unknown", "in-circuit", "not-read",
                          "no-condition", "out-of-reach", "no-figure", "wet", "live"));
  EXPECT_THAT(ids(kind->descriptor().rules[1].texts),
              ElementsAre("closed-right", "open-right", "both-right", "closed-wrong", "open-wrong", "closed-either",
                          "open-either", "poor", "connection-unstated", "in-circuit", "open-in-circuit", "not-read",
                          "no-condition", "no-figure", "live", "comes-and-goes", "range-too-coarse", "range-too-low",
                          "right-alone"));
}

TEST(DescriptorOfAFile, PutsItsOwnWordsOverOurAdvice) {
  const auto kind = coil();
  EXPECT_THAT(ids(kind->descriptor().advice),
              ElementsAre("lift-a-lead", "prove-dead", "read-unplugged", "dry-it", "read-again", "higher-range",
                          "say-ratings", "better-meter", "prove-insulation", "better-part_temperature", "buy"));
  EXPECT_EQ(kind->descriptor().advice[0].english, "Take a lead off.");
}

}  // namespace
}  // namespace ohmwright::kind_file
