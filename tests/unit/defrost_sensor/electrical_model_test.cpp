#include <cmath>

#include <gtest/gtest.h>

#include "descriptor/descriptor.hpp"
#include "sensor_fixture.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

std::vector<Element> model(const std::optional<SensorRatings>& ratings, std::uint16_t mode, std::optional<double> t) {
  const SensorPart part(ratings);
  std::vector<ConditionValue> conditions;
  if (t) conditions.push_back({part_temperature, celsius(*t).kelvin()});
  std::vector<Element> elements;
  part.electrical_model(mode, Situation(conditions), elements);
  return elements;
}

double low(const Element& e) { return e.value_in_si * (1.0 - e.relative_half_width); }
double high(const Element& e) { return e.value_in_si * (1.0 + e.relative_half_width); }

TEST(ElectricalModel, HealthySensorHasItsLimits) {
  const auto elements = model(plain_ratings(), not_found, 0.0);
  ASSERT_EQ(elements.size(), 1U);
  EXPECT_EQ(elements[0].type, ElementType::resistance);
  EXPECT_EQ(elements[0].to, 1);
  EXPECT_NEAR(low(elements[0]), 0.95 * 33900.420850, 0.01);
  EXPECT_NEAR(high(elements[0]), 1.05 * 33900.420850, 0.01);
}

TEST(ElectricalModel, OpenAndShortNeedNoRatings) {
  EXPECT_EQ(model({}, fault_open, {}).at(0).type, ElementType::open);
  EXPECT_EQ(model({}, fault_short, {}).at(0).type, ElementType::closed);
  EXPECT_TRUE(model({}, fault_drift_high, 0.0).empty());
  EXPECT_TRUE(model({}, not_found, 0.0).empty());
}

TEST(ElectricalModel, EveryFaultMovesTheSensorItsWay) {
  const Element good = model(plain_ratings(), not_found, 0.0).at(0);
  const auto faulty = [](std::uint16_t mode) { return model(plain_ratings(), mode, 0.0).at(0); };
  EXPECT_GT(faulty(fault_drift_high).value_in_si, good.value_in_si);
  EXPECT_LT(faulty(fault_drift_low).value_in_si, good.value_in_si);
  EXPECT_LT(faulty(fault_leakage).value_in_si, good.value_in_si);
  EXPECT_GT(faulty(fault_series_resistance).value_in_si, good.value_in_si);
  EXPECT_LT(faulty(fault_misplaced).value_in_si, good.value_in_si);
  EXPECT_GT(faulty(fault_wrong_curve).relative_half_width, good.relative_half_width);
}

// Extents assumed, no source.
TEST(ElectricalModel, ItsFaultsLeaveNoGapFromNothingToOpen) {
  const auto faulty = [](std::uint16_t mode) { return model(plain_ratings(), mode, 0.0).at(0); };
  EXPECT_NEAR(low(faulty(fault_short)), 0.0, 1e-9);
  EXPECT_NEAR(high(faulty(fault_short)), 100.0, 1e-9);  // what touches: more is bridged by something else
  EXPECT_NEAR(low(faulty(fault_far_too_low)), high(faulty(fault_short)), 1e-6);
  EXPECT_NEAR(high(faulty(fault_far_too_low)), low(faulty(fault_wrong_curve)), 1e-6);
  EXPECT_LT(low(faulty(fault_series_resistance)), high(faulty(fault_wrong_curve)));
  EXPECT_GT(high(faulty(fault_series_resistance)), 1e6);
}

TEST(ElectricalModel, WhatComesAndGoesIsGoodWhileItConducts) {
  const Element good = model(plain_ratings(), not_found, 0.0).at(0);
  const Element one = model(plain_ratings(), fault_intermittent, 0.0).at(0);
  EXPECT_EQ(one.type, ElementType::contact);
  EXPECT_EQ(one.probability_closed, 0.5);
  EXPECT_EQ(one.value_in_si, good.value_in_si);
  EXPECT_EQ(one.relative_half_width, good.relative_half_width);
}

TEST(ElectricalModel, WithoutATemperatureItMayBeAnywhereInTheAppliance) {
  const Element anywhere = model(plain_ratings(), not_found, {}).at(0);
  EXPECT_GT(high(anywhere), 400e3);  // -40 °C
  EXPECT_LT(low(anywhere), 3e3);     // 60 °C
}

TEST(Expectation, IsTheCurveWithItsLimitsAndItsOwnDoubt) {
  const SensorPart part(plain_ratings());
  const ConditionValue at{part_temperature, celsius(-18).kelvin()};
  const auto expected = part.expect(resistance, Situation({&at, 1}));
  ASSERT_TRUE(expected);
  EXPECT_NEAR(expected->nominal.value_in_si(), 94686.496086, 1e-3);
  EXPECT_NEAR(expected->limits.upper->value_in_si(), 1.05 * 94686.496086, 1e-2);
  EXPECT_EQ(expected->model_standard_error, 0.0);
  EXPECT_FALSE(part.expect(voltage, Situation({&at, 1})));
  EXPECT_FALSE(part.expect(resistance, {}));
  SensorRatings two_point = plain_ratings();
  two_point.curve = std::make_shared<BetaCurve>(beta_3977());
  EXPECT_GT(SensorPart(two_point).expect(resistance, Situation({&at, 1}))->model_standard_error, 5000.0);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
