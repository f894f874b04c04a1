// The appliances that are shipped: each can be read, is called like its file, and has nothing to mend.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

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

/// Also at a terminal that a test point reads alone.
TEST(ShippedAppliances, ANodeWrittenInAnotherWayIsFoundAtAnyTerminal) {
  const nlohmann::json file = nlohmann::json::parse(shipped_text("upright-timer-bimetal-120v"));
  for (std::size_t part = 0; part < file["parts"].size(); ++part) {
    for (const auto& connection : file["parts"][part]["connections"].items()) {
      nlohmann::json misspelt = file;
      misspelt["parts"][part]["connections"][connection.key()] = "TYPO";
      const Appliance appliance = appliance_of(misspelt.dump());
      EXPECT_THAT(check_appliance(appliance),
                  ::testing::Contains(::testing::Field(&ApplianceFinding::form, ApplianceFinding::Form::loose_node)))
          << file["parts"][part]["id"] << "." << connection.key();
    }
  }
}

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
