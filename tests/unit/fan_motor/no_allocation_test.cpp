#include <gtest/gtest.h>

#include "allocations.hpp"
#include "fan_motor_fixture.hpp"
#include "fan_motor_part.hpp"
#include "test_kind.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

Evidence ohms_of(const std::vector<std::string_view>& values, std::string_view measurand = "winding") {
  static const FanMotorKind kind;
  std::vector<Reading> readings;
  for (const std::string_view value : values)
    readings.push_back({.measurand = std::string(measurand),
                        .observed = parse_observed(value, Dimension::resistance, {}),
                        .connection = Connection::lead_off,
                        .supply = Supply::proved_dead});
  return {kind.descriptor(), readings, MeterSet({testing::basic_meter("0.2 ohm")})};
}

TEST(Judge, AllocatesNothing) {
  const FanMotorPart known{std::optional(plain())};
  EXPECT_EQ(testing::allocations_of_judge(known, ohms_of({"82.7 ohm"})), 0);
  EXPECT_EQ(testing::allocations_of_judge(known, ohms_of({"60 ohm", "OL"})), 0);
  EXPECT_EQ(testing::allocations_of_judge(known, ohms_of({"0.2 Mohm"}, "insulation")), 0);
  EXPECT_EQ(testing::allocations_of_judge(FanMotorPart{std::nullopt}, ohms_of({"OL"})), 0);
}

}  // namespace
}  // namespace ohmwright::fan_motor
