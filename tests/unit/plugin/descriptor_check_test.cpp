#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/descriptor_check.hpp>

#include "../../plugins/support/fixture_kind.hpp"

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// What is wrong with a complete descriptor after `change`.
template <class Change>
std::vector<std::string> problems_after(Change change) {
  Descriptor descriptor = fixture::complete_descriptor("fan-motor", {"fan"});
  change(descriptor);
  return descriptor_problems(descriptor, {"fan-motor", {"fan"}});
}

TEST(DescriptorCheck, ACompleteDescriptorHasNoProblem) {
  EXPECT_THAT(problems_after([](Descriptor&) {}), IsEmpty());
}

TEST(DescriptorCheck, NamesMustBeThoseOfTheStamp) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.aliases = {"motor"}; }),
              ElementsAre("the alias \"motor\" is in its descriptor but not in its stamp",
                          "the alias \"fan\" is in its stamp but not in its descriptor"));
}

TEST(DescriptorCheck, AnEmptyDescriptorLacksEverything) {
  EXPECT_THAT(descriptor_problems(Descriptor{}, {"fan-motor", {}}),
              ElementsAre("its descriptor is of \"\", its stamp of \"fan-motor\"", "kind \"fan-motor\" has no title",
                          "kind \"fan-motor\" has no ratings schema", "it has no measurand", "it has no rule"));
}

TEST(DescriptorCheck, IdsAreUniqueInTheirListAndWellFormed) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.measurands.push_back(descriptor.measurands[0]); }),
              ElementsAre("measurand \"resistance\" stands twice"));
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.roles = {"Heats coil"}; }),
              ElementsAre("role \"Heats coil\" must be named with a-z, 0-9, - and _"));
  EXPECT_THAT(
      problems_after([](Descriptor& descriptor) { descriptor.rules[0].texts.push_back(descriptor.rules[0].texts[0]); }),
      ElementsAre("text of rule \"reads-something\" \"reads\" stands twice"));
}

TEST(DescriptorCheck, ReferencesMustResolve) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.procedures[0].cautions = {"sharp-wit"}; }),
              ElementsAre("procedure \"read-it\" names the caution \"sharp-wit\", which is not there"));
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.charts = {ChartAxis{"resistance", "weather"}};
              }),
              ElementsAre("a chart names the condition \"weather\", which is not there"));
}

TEST(DescriptorCheck, AnErrorSourceHasATitleAndStandsOnce) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.error_sources = {{"gap", "the gap"}, {"gap", ""}};
              }),
              ElementsAre("error source \"gap\" stands twice", "error source \"gap\" has no title"));
}

TEST(DescriptorCheck, ACautionOfItsOwnWillDo) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.cautions = {{"sharp-blades", "brief", "The blades are sharp", "common practice, no source"}};
                descriptor.procedures[0].cautions = {"sharp-blades"};
              }),
              IsEmpty());
}

TEST(DescriptorCheck, WeightsAndProbabilitiesMustBePossible) {
  FaultModeDescriptor mode{"open", "Open", 1.0, "common practice, no source", {{"warm-cabinet", 0.5}}, {}};
  EXPECT_THAT(problems_after([&](Descriptor& descriptor) { descriptor.fault_modes = {mode}; }), IsEmpty());
  mode.prior_weight = -1.0;
  mode.symptoms[0].probability = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(problems_after([&](Descriptor& descriptor) { descriptor.fault_modes = {mode}; }),
              ElementsAre("fault mode \"open\" has no possible weight",
                          "fault mode \"open\" has no possible symptom \"warm-cabinet\""));
}

TEST(DescriptorCheck, ARuleDeclaresWhatItCanSayAndItsSource) {
  EXPECT_THAT(
      problems_after([](Descriptor& descriptor) {
        descriptor.rules[0].outcomes = 0;
        descriptor.rules[0].source = "";
      }),
      ElementsAre("rule \"reads-something\" has no source", "rule \"reads-something\" declares no possible outcome"));
}

}  // namespace
}  // namespace ohmwright
