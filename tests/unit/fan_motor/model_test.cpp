#include <gtest/gtest.h>

#include "fan_motor_fixture.hpp"
#include "part/electrical_model.hpp"
#include "part/expectation.hpp"

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

std::vector<Element> model(std::uint16_t fault, double hertz, double celsius = 25.0) {
  std::vector<Element> elements;
  const FanMotorRatings known = plain();
  const ConditionValue at{part_temperature, 273.15 + celsius};
  append_model(&known, fault, {{&at, 1}, {}, hertz}, elements);
  return elements;
}

TEST(ElectricalModel, AnOhmmeterSeesTheWindingAndTheLineWhatItDraws) {
  EXPECT_NEAR(model(not_found, 0.0).at(0).value_in_si, 82.0, 1e-9);
  EXPECT_NEAR(model(not_found, 0.0, -20.0).at(0).value_in_si, 82.0 * 214.5 / 259.5, 1e-9);
  const Element line = model(not_found, 60.0).at(0);
  EXPECT_NEAR(line.value_in_si * (1.0 - line.relative_half_width), 500.0 / 1.15, 1e-9);
}

TEST(ElectricalModel, FaultsMoveItAsTheyShould) {
  EXPECT_EQ(model(fault_open, 0.0).at(0).type, ElementType::open);
  EXPECT_LT(model(fault_shorted_turns, 0.0).at(0).value_in_si, 82.0);
  EXPECT_LT(model(fault_seized, 60.0).at(0).value_in_si, model(not_found, 60.0).at(0).value_in_si);
  EXPECT_NEAR(model(fault_seized, 0.0).at(0).value_in_si, 82.0, 1e-9);
  EXPECT_EQ(model(fault_leaks, 0.0).at(1).type, ElementType::resistance);
}

TEST(Expectation, MovesWithTheCopper) {
  const ConditionValue at{part_temperature, 253.15};
  const auto expected = expected_reading(plain(), winding, {{&at, 1}, {}, 0.0});
  ASSERT_TRUE(expected);
  EXPECT_NEAR(expected->nominal.value_in_si(), 82.0 * 214.5 / 259.5, 1e-9);
  EXPECT_NEAR(expected->limits.lower->value_in_si(), 0.93 * 82.0 * 214.5 / 259.5, 1e-9);
  EXPECT_FALSE(expected_reading(plain(), speed, {{&at, 1}, {}, 0.0}));
}

}  // namespace
}  // namespace ohmwright::fan_motor
