// The appliances that are shipped: each can be read, is called like its file, and has nothing to mend.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/report/appliance_report.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

class Shipped : public ::testing::TestWithParam<std::string> {};

TEST_P(Shipped, CanBeRead) {
  const std::string text = shipped_text(GetParam());
  ASSERT_THAT(missing_kinds(text), ::testing::IsEmpty());
  EXPECT_EQ(refusal_of(text), "");
  EXPECT_EQ(appliance_of(text).id, GetParam());
}

TEST_P(Shipped, HasNothingToMend) {
  const std::string text = shipped_text(GetParam());
  ASSERT_THAT(missing_kinds(text), ::testing::IsEmpty());
  const Appliance appliance = appliance_of(text);
  for (const ApplianceFinding& finding : check_appliance(appliance))
    EXPECT_FALSE(is_wrong(finding.form)) << finding_text(appliance, finding, Sentences(UnitPreferences{}));
}

INSTANTIATE_TEST_SUITE_P(Each, Shipped, ::testing::ValuesIn(shipped_appliances()), [](const auto& param) {
  std::string name = param.param;
  for (char& letter : name)
    if (letter == '-') letter = '_';
  return name;
});

TEST(ShippedAppliances, AreOfBothVoltagesAndManyWirings) {
  const std::vector<std::string> names = shipped_appliances();
  EXPECT_GE(names.size(), 8U);
  const auto of = [&](const std::string& ending) {
    return std::count_if(names.begin(), names.end(), [&](const std::string& name) { return name.ends_with(ending); });
  };
  EXPECT_GE(of("120v"), 2);
  EXPECT_GE(of("230v"), 4);
}

}  // namespace
}  // namespace ohmwright::testing
