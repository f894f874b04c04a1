#include <gtest/gtest.h>

#include "descriptor/descriptor.hpp"
#include "thermostat_fixture.hpp"
#include "thermostat_part.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

std::vector<Element> model(const std::optional<ThermostatRatings>& ratings, std::uint16_t mode, std::optional<double> t,
                           std::uint16_t came = history_unknown) {
  const ThermostatPart part(ratings);
  std::vector<ConditionValue> conditions;
  if (t) conditions.push_back({part_temperature, celsius(*t).kelvin()});
  const StateValue state{history, came};
  std::vector<Element> elements;
  part.electrical_model(mode, {conditions, {&state, 1}}, elements);
  return elements;
}

bool is_closed(const std::vector<Element>& elements) {
  EXPECT_FALSE(elements.empty());
  return !elements.empty() && elements[0].type == ElementType::contact && elements[0].probability_closed > 0.5;
}

double low(const Element& e) { return e.value_in_si * (1.0 - e.relative_half_width); }
double high(const Element& e) { return e.value_in_si * (1.0 + e.relative_half_width); }

TEST(ElectricalModel, AHealthyContactFollowsTemperatureAndHistory) {
  EXPECT_TRUE(is_closed(model(plain_ratings(), not_found, -18, warming)));
  EXPECT_TRUE(is_closed(model(plain_ratings(), not_found, 5, warming)));
  EXPECT_FALSE(is_closed(model(plain_ratings(), not_found, 5, cooling)));
  EXPECT_FALSE(is_closed(model(plain_ratings(), not_found, 22, warming)));
  EXPECT_TRUE(is_closed(model(plain_ratings(), not_found, -18, cooling)));
  EXPECT_EQ(model(plain_ratings(), not_found, 5).at(0).probability_closed, 0.5);  // unknown: as likely one as the other
}

TEST(ElectricalModel, AClosedContactHasItsOhms) {
  const auto elements = model(plain_ratings(), not_found, -18);
  ASSERT_EQ(elements.size(), 1U);
  EXPECT_EQ(elements[0].from, contact_1);
  EXPECT_EQ(elements[0].to, contact_2);
  EXPECT_NEAR(low(elements[0]), 0.01, 1e-12);
  EXPECT_NEAR(high(elements[0]), 0.2, 1e-12);
}

TEST(ElectricalModel, WeldedAndStuckNeedNothing) {
  EXPECT_TRUE(is_closed(model({}, fault_welded, {})));
  EXPECT_FALSE(is_closed(model({}, fault_stuck_open, {})));
  EXPECT_TRUE(is_closed(model(plain_ratings(), fault_welded, 22)));
  EXPECT_FALSE(is_closed(model(plain_ratings(), fault_stuck_open, -18)));
  EXPECT_TRUE(model({}, not_found, -18).empty());
  EXPECT_TRUE(model(plain_ratings(), not_found, {}).empty());
}

TEST(ElectricalModel, DriftMovesBothTripPoints) {
  EXPECT_TRUE(is_closed(model(plain_ratings(), fault_drifted_high, 18, warming)));
  EXPECT_FALSE(is_closed(model(plain_ratings(), fault_drifted_low, 8, warming)));
  EXPECT_FALSE(is_closed(model(plain_ratings(), fault_drifted_low, -10, cooling)));
}

TEST(ElectricalModel, ABadContactConductsBadlyWhileClosed) {
  const auto elements = model(plain_ratings(), fault_bad_contact, -18);
  EXPECT_GT(low(elements.at(0)), 0.2);
  EXPECT_FALSE(is_closed(model(plain_ratings(), fault_bad_contact, 22)));
  const auto burnt = model(plain_ratings(), fault_burnt_contact, -18);
  EXPECT_NEAR(low(burnt.at(0)), high(elements.at(0)), 1e-9);
  EXPECT_NEAR(high(burnt.at(0)), 100e3, 1e-6);
}

TEST(ElectricalModel, TheLinkIsClosedUntilItIsOpen) {
  const auto good = model(ratings_with_link(4), not_found, 22);
  ASSERT_EQ(good.size(), 2U);
  EXPECT_EQ(good[1].from, link_1);
  EXPECT_EQ(good[1].type, ElementType::resistance);
  const auto open = model(ratings_with_link(4), fault_link_open, -18);
  ASSERT_EQ(open.size(), 2U);
  EXPECT_EQ(open[0].type, ElementType::contact);
  EXPECT_EQ(open[1].type, ElementType::open);
  const auto pair = model(ratings_with_link(2), fault_link_open, -18);
  ASSERT_EQ(pair.size(), 1U);
  EXPECT_EQ(pair[0].type, ElementType::open);
  EXPECT_EQ(pair[0].to, contact_2);
  EXPECT_TRUE(model({}, fault_link_open, {}).empty());  // whether it has a link is not known
}

TEST(ElectricalModel, WithinTheToleranceOfItsTripPointAShareOfGoodPartsIsClosed) {
  const auto elements = model(plain_ratings(), not_found, plain_ratings().opening.nominal.celsius(), warming);
  EXPECT_EQ(elements.at(0).type, ElementType::contact);
  EXPECT_NEAR(elements[0].probability_closed, 0.5, 1e-12);
}

TEST(ElectricalModel, AFaultThatThePartCannotHaveIsNotApplicable) {
  std::vector<Element> elements;
  const ThermostatPart without_link(plain_ratings());
  EXPECT_EQ(without_link.electrical_model(fault_link_open, {}, elements), ModelAnswer::not_applicable);
  EXPECT_EQ(ThermostatPart(std::nullopt).electrical_model(not_found, {}, elements), ModelAnswer::unknown);
  EXPECT_TRUE(elements.empty());
}

// ---- expectations

std::optional<Expectation> expected(const ThermostatRatings& ratings, std::uint16_t measurand, ConditionValue at,
                                    std::uint16_t came = history_unknown) {
  const StateValue state{history, came};
  return ThermostatPart(ratings).expect(measurand, {{&at, 1}, {&state, 1}});
}

ConditionValue at(double t) { return {part_temperature, celsius(t).kelvin()}; }

TEST(Expectation, TheShareOfClosedPartsFallsOverTheTolerance) {
  const auto share = [](double t, std::uint16_t came) {
    return *expected(plain_ratings(), contact_state, at(t), came)->share_closed;
  };
  EXPECT_NEAR(share(9, warming), 1.0, 1e-12);
  EXPECT_NEAR(share(12, warming), 2.0 / 3.0, 1e-12);
  EXPECT_NEAR(share(13, warming), 0.5, 1e-12);
  EXPECT_NEAR(share(16, warming), 0.0, 1e-12);
  EXPECT_NEAR(share(1, cooling), 0.0, 1e-12);
  EXPECT_NEAR(share(-5, cooling), 0.5, 1e-12);
  EXPECT_NEAR(share(-10, cooling), 1.0, 1e-12);
  EXPECT_NEAR(share(5, history_unknown), 0.5, 1e-12);
}

TEST(Expectation, OfAClosedContactAreItsOhms) {
  const auto closed = expected(plain_ratings(), contact_state, at(-18));
  EXPECT_EQ(closed->limits.upper, AnyQuantity(Dimension::resistance, 0.2));
  EXPECT_EQ(closed->limits.lower, AnyQuantity(Dimension::resistance, 0.0));
  EXPECT_NEAR(closed->nominal.value_in_si(), 0.05, 1e-12);
}

TEST(Expectation, OfTheDropIsTheLimitTimesTheCurrent) {
  const auto drop = expected(plain_ratings(), voltage_drop, {load_current, 3.75});
  EXPECT_NEAR(drop->limits.upper->value_in_si(), 0.75, 1e-12);
  EXPECT_FALSE(drop->share_closed);
  EXPECT_FALSE(expected(plain_ratings(), voltage_drop, at(20)));
}

TEST(Expectation, OfTheLinkIsClosedToItsBand) {
  EXPECT_NEAR(*expected(ratings_with_link(4), link_state, at(60))->share_closed, 1.0, 1e-12);
  EXPECT_NEAR(*expected(ratings_with_link(4), link_state, at(72))->share_closed, 0.5, 1e-12);
  EXPECT_NEAR(*expected(ratings_with_link(4), link_state, at(77))->share_closed, 0.0, 1e-12);
  EXPECT_FALSE(expected(plain_ratings(), link_state, at(60)));
  EXPECT_FALSE(expected(ratings_with_link(2), link_state, at(60)));
  EXPECT_FALSE(ThermostatPart(std::nullopt).expect(contact_state, {}));
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
