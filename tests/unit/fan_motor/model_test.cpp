#include <gtest/gtest.h>

#include "element_ends.hpp"
#include "fan_motor_fixture.hpp"
#include "part/electrical_model.hpp"
#include "part/expectation.hpp"

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

std::vector<Element> model(std::uint16_t fault, Excitation driven, double celsius = 25.0) {
  std::vector<Element> elements;
  const FanMotorRatings known = plain();
  const ConditionValue at{part_temperature, 273.15 + celsius};
  Situation situation({&at, 1});
  situation.excitation = driven;
  append_model(&known, fault, situation, elements);
  return elements;
}

TEST(ElectricalModel, AnOhmmeterSeesTheWindingAndTheLineWhatItDraws) {
  EXPECT_NEAR(model(not_found, Excitation::ohmmeter).at(0).value_in_si, 82.0, 1e-9);
  EXPECT_NEAR(model(not_found, Excitation::ohmmeter, -20.0).at(0).value_in_si, 82.0 * 214.5 / 259.5, 1e-9);
  const Element line = model(not_found, Excitation::alternating_supply).at(0);
  EXPECT_NEAR(line.value_in_si * (1.0 - line.relative_half_width), 500.0 / 1.15, 1e-9);
}

TEST(ElectricalModel, FaultsMoveItAsTheyShould) {
  EXPECT_EQ(model(fault_open, Excitation::ohmmeter).at(0).type, ElementType::open);
  EXPECT_LT(model(fault_shorted_turns, Excitation::ohmmeter).at(0).value_in_si, 82.0);
  EXPECT_LT(model(fault_seized, Excitation::alternating_supply).at(0).value_in_si,
            model(not_found, Excitation::alternating_supply).at(0).value_in_si);
  EXPECT_NEAR(model(fault_seized, Excitation::ohmmeter).at(0).value_in_si, 82.0, 1e-9);
  EXPECT_EQ(model(fault_leaks, Excitation::ohmmeter).at(1).type, ElementType::resistance);
}

// Extents assumed, no source.
TEST(ElectricalModel, ItsFaultsLeaveNoGapFromNothingToOpen) {
  using ohmwright::testing_support::highest_of;
  using ohmwright::testing_support::lowest_of;
  const Element good = model(not_found, Excitation::ohmmeter).at(0);
  const Element turns = model(fault_shorted_turns, Excitation::ohmmeter).at(0);
  const Element joint = model(fault_bad_joint, Excitation::ohmmeter).at(0);
  EXPECT_NEAR(lowest_of(turns), 0.0, 1e-12);
  EXPECT_GT(highest_of(turns), lowest_of(good));
  EXPECT_LT(lowest_of(joint), highest_of(good));
  const Element burnt = model(fault_burnt_joint, Excitation::ohmmeter).at(0);
  EXPECT_LT(lowest_of(burnt), highest_of(joint));
  EXPECT_GT(highest_of(burnt), 100e3);
}

TEST(Expectation, MovesWithTheCopper) {
  const ConditionValue at{part_temperature, 253.15};
  const auto expected = expected_reading(plain(), winding, Situation({&at, 1}));
  ASSERT_TRUE(expected);
  EXPECT_NEAR(expected->nominal.value_in_si(), 82.0 * 214.5 / 259.5, 1e-9);
  EXPECT_NEAR(expected->limits.lower->value_in_si(), 0.93 * 82.0 * 214.5 / 259.5, 1e-9);
  EXPECT_FALSE(expected_reading(plain(), speed, Situation({&at, 1})));
}

}  // namespace
}  // namespace ohmwright::fan_motor
