#include <gtest/gtest.h>

#include "element_ends.hpp"
#include "heater_fixture.hpp"
#include "part/electrical_model.hpp"
#include "part/expectation.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;

std::vector<Element> model(std::uint16_t fault, Excitation driven) {
  std::vector<Element> elements;
  const HeaterRatings known = plain();
  Situation situation;
  situation.excitation = driven;
  append_model(&known, fault, situation, elements);
  return elements;
}

TEST(ElectricalModel, AnOhmmeterSeesTheColdWireAndTheLineTheHotOne) {
  const Element cold = model(not_found, Excitation::ohmmeter).at(0);
  const Element hot = model(not_found, Excitation::alternating_supply).at(0);
  EXPECT_NEAR(cold.value_in_si * (1.0 + cold.relative_half_width), 32.0 / 0.9, 1e-9);
  EXPECT_NEAR(hot.value_in_si * (1.0 - hot.relative_half_width), 32.0 / 1.05, 1e-9);
}

TEST(ElectricalModel, OpenWhenHotReadsGoodCold) {
  EXPECT_EQ(model(fault_opens_hot, Excitation::ohmmeter).at(0).type, ElementType::resistance);
  EXPECT_EQ(model(fault_opens_hot, Excitation::alternating_supply).at(0).type, ElementType::open);
  EXPECT_EQ(model(fault_open, Excitation::ohmmeter).at(0).type, ElementType::open);
}

TEST(ElectricalModel, FaultsMoveTheOhmsAsTheyShould) {
  const double good = model(not_found, Excitation::ohmmeter).at(0).value_in_si;
  EXPECT_LT(model(fault_shorted_turns, Excitation::ohmmeter).at(0).value_in_si, good);
  EXPECT_NEAR(model(fault_one_of_two, Excitation::ohmmeter).at(0).value_in_si, 2.0 * good, 1e-9);
  EXPECT_GT(model(fault_bad_joint, Excitation::ohmmeter).at(0).value_in_si, good);
  EXPECT_EQ(model(not_found, Excitation::ohmmeter).at(1).type, ElementType::open);
  EXPECT_EQ(model(fault_leaks, Excitation::ohmmeter).at(1).type, ElementType::resistance);
}

// A sheath leaks anywhere along the wire: from a lead the whole element lies before the leak, or next to nothing.
TEST(ElectricalModel, LeaksFromAnywhereAlongItsWire) {
  using ohmwright::testing_support::highest_of;
  using ohmwright::testing_support::lowest_of;
  const Element first = model(fault_leaks, Excitation::ohmmeter).at(1);
  EXPECT_EQ(first.from, lead_1);
  EXPECT_NEAR(highest_of(first), 1e6, 1e-3);
  EXPECT_EQ(model(fault_leaks_at_the_other_end, Excitation::ohmmeter).at(1).from, lead_2);
  const std::vector<Element> along = model(fault_leaks_in_the_middle, Excitation::ohmmeter);
  ASSERT_EQ(along.size(), 3U);
  const Element good = model(not_found, Excitation::ohmmeter).at(0);
  EXPECT_NEAR(lowest_of(along[0]), 0.1 * lowest_of(good), 1e-9);
  EXPECT_NEAR(highest_of(along[1]), 0.9 * highest_of(good), 1e-9);
  EXPECT_EQ(along[0].to, along[2].from);
  EXPECT_GT(along[2].from, frame);  // a point within, which no probe reaches
  EXPECT_EQ(along[2].to, frame);
}

// A dead short is as low as the leads, known without ratings; where it ends shorted turns begin, which reach up to a
// good one, and from there bad joints and burnt ones up to what a meter calls open. (Extents assumed, no source.)
TEST(ElectricalModel, ItsFaultsLeaveNoGapFromNothingToOpen) {
  using ohmwright::testing_support::highest_of;
  using ohmwright::testing_support::lowest_of;
  const Element good = model(not_found, Excitation::ohmmeter).at(0);
  const Element turns = model(fault_shorted_turns, Excitation::ohmmeter).at(0);
  const Element joint = model(fault_bad_joint, Excitation::ohmmeter).at(0);
  EXPECT_NEAR(lowest_of(turns), 0.5, 1e-12);
  EXPECT_GT(highest_of(turns), lowest_of(good));
  EXPECT_LT(lowest_of(joint), highest_of(good));
  const Element burnt = model(fault_burnt_joint, Excitation::ohmmeter).at(0);
  EXPECT_LT(lowest_of(burnt), highest_of(joint));
  EXPECT_GT(highest_of(burnt), 100e3);
  const Element short_one = model(fault_short, Excitation::alternating_supply).at(0);
  EXPECT_EQ(short_one.type, ElementType::resistance);
  EXPECT_NEAR(highest_of(short_one), 0.5, 1e-12);
  std::vector<Element> elements;
  EXPECT_EQ(append_model(nullptr, fault_short, {}, elements), ModelAnswer::stated);
}

TEST(ElectricalModel, WhatComesAndGoesIsGoodWhileItConducts) {
  const Element good = model(not_found, Excitation::ohmmeter).at(0);
  const Element one = model(fault_intermittent, Excitation::ohmmeter).at(0);
  EXPECT_EQ(one.type, ElementType::contact);
  EXPECT_EQ(one.probability_closed, 0.5);
  EXPECT_EQ(one.value_in_si, good.value_in_si);
  EXPECT_EQ(one.relative_half_width, good.relative_half_width);
}

TEST(ElectricalModel, OfAnUnknownHeaterOnlyOpenIsKnown) {
  std::vector<Element> elements;
  EXPECT_EQ(append_model(nullptr, not_found, {}, elements), ModelAnswer::unknown);
  EXPECT_TRUE(elements.empty());
  EXPECT_EQ(append_model(nullptr, fault_open, {}, elements), ModelAnswer::stated);
  EXPECT_EQ(elements.size(), 2U);  // across it and to the frame
}

TEST(Expectation, FollowsTheSquareOfTheVoltsNearTheRating) {
  const ConditionValue line{line_voltage, 108.0};
  const auto watts = expected_reading(plain(), power, {{&line, 1}});
  ASSERT_TRUE(watts);
  EXPECT_NEAR(watts->nominal.value_in_si(), 364.5, 1e-9);
  const auto amperes = expected_reading(plain(), current, {{&line, 1}});
  EXPECT_NEAR(amperes->nominal.value_in_si(), 3.375, 1e-9);
  const ConditionValue far{line_voltage, 230.0};
  EXPECT_FALSE(expected_reading(plain(), power, {{&far, 1}}));
  EXPECT_FALSE(expected_reading(plain(), resistance, {}));
}

}  // namespace
}  // namespace ohmwright::heater
