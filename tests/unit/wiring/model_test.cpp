#include <gtest/gtest.h>

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;

std::vector<Element> model(const WiringRatings& known, std::uint16_t fault, const Situation& situation = {}) {
  std::vector<Element> elements;
  EXPECT_EQ(append_model(&known, fault, situation, elements), ModelAnswer::stated);
  return elements;
}

double low(const Element& one) { return one.value_in_si * (1.0 - one.relative_half_width); }
double high(const Element& one) { return one.value_in_si * (1.0 + one.relative_half_width); }

Situation at(std::uint16_t condition, double value) {
  const ConditionValue one{condition, value};
  return {{&one, 1}};
}

TEST(ElectricalModel, ASoundLeadLiesBetweenItsCopperAndItsLimit) {
  const auto elements = model(lead(), not_found);
  ASSERT_EQ(elements.size(), 2U);
  EXPECT_NEAR(low(elements[0]), 1.0 / 58.0 + 0.001, 1e-12);
  EXPECT_NEAR(high(elements[0]), 0.12, 1e-12);
  EXPECT_EQ(elements[1].type, ElementType::open);
  EXPECT_EQ(elements[1].to, frame);
  EXPECT_NEAR(high(model(lead(), not_found, at(lead_length, 4.0))[0]), 0.18, 1e-12);
}

TEST(ElectricalModel, FaultsDoWhatTheySay) {
  EXPECT_EQ(model(lead(), fault_open)[0].type, ElementType::open);
  const Element joint = model(splice(), fault_high_resistance)[0];
  EXPECT_NEAR(low(joint), 1.001, 1e-12);
  EXPECT_NEAR(high(joint), 50.1, 1e-12);
  const Element burnt = model(splice(), fault_burnt_joint)[0];
  EXPECT_LT(low(burnt), high(joint));
  EXPECT_NEAR(high(burnt), 100e3 + 0.1, 1e-9);
  const Element jumping = model(lead(), fault_intermittent)[0];
  EXPECT_EQ(jumping.type, ElementType::contact);
  EXPECT_EQ(jumping.probability_closed, 0.5);
  const auto leaking = model(lead(), fault_leaks);
  EXPECT_EQ(leaking[0].type, ElementType::resistance);
  EXPECT_EQ(leaking[1].type, ElementType::resistance);
  EXPECT_EQ(leaking[1].from, end_1);
  EXPECT_EQ(leaking[1].to, frame);
}

TEST(ElectricalModel, WhatNobodyKnowsIsUnknown) {
  std::vector<Element> elements;
  const WiringRatings no_length = lead_without_length();
  EXPECT_EQ(append_model(nullptr, not_found, {}, elements), ModelAnswer::unknown);
  EXPECT_EQ(append_model(&no_length, not_found, {}, elements), ModelAnswer::unknown);
  EXPECT_EQ(append_model(&no_length, fault_leaks, {}, elements), ModelAnswer::unknown);
  EXPECT_TRUE(elements.empty());
  EXPECT_EQ(append_model(nullptr, fault_open, {}, elements), ModelAnswer::stated);
  EXPECT_EQ(append_model(nullptr, fault_high_resistance, {}, elements), ModelAnswer::stated);
  EXPECT_EQ(append_model(&no_length, not_found, at(lead_length, 1.0), elements), ModelAnswer::stated);
}

TEST(Expectation, FollowsLengthAndCurrent) {
  const auto ohms = expected_reading(lead(), resistance, at(lead_length, 10.0));
  ASSERT_TRUE(ohms);
  EXPECT_NEAR(ohms->limits.upper->value_in_si(), 0.3, 1e-12);
  EXPECT_EQ(ohms->limits.lower->value_in_si(), 0.0);  // thicker copper is no fault
  const auto volts = expected_reading(lead(), drop, at(load_current, 5.0));
  ASSERT_TRUE(volts);
  EXPECT_NEAR(volts->limits.upper->value_in_si(), 0.6, 1e-12);
  EXPECT_NEAR(volts->nominal.value_in_si(), 5.0 * (1.0 / 58.0 + 0.001), 1e-12);
  EXPECT_FALSE(expected_reading(lead(), drop, {}));
  EXPECT_FALSE(expected_reading(lead_without_length(), resistance, {}));
  EXPECT_FALSE(expected_reading(lead(), insulation_resistance, {}));
}

}  // namespace
}  // namespace ohmwright::wiring
