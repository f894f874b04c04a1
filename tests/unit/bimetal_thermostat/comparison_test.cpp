#include "part/comparison.hpp"

#include <map>

#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"
#include "thermostat_kind.hpp"
#include "thermostat_part.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

std::map<std::string, Outcome> compare(const ThermostatRatings& original, const ThermostatRatings& candidate,
                                       std::optional<double> load_ampere = {}) {
  const ThermostatKind kind;
  const ConditionValue load{load_current, load_ampere.value_or(0.0)};
  ComparisonContext context;
  if (load_ampere) context.situation = Situation({&load, 1});
  std::map<std::string, Outcome> said;
  for (const EquivalenceFinding& finding : kind.compare(ThermostatPart(original), ThermostatPart(candidate), context))
    said[std::string(finding.text.id)] = finding.outcome;
  return said;
}

using Said = std::map<std::string, Outcome>;

TEST(Compare, AnEqualPartStandsIn) {
  EXPECT_EQ(compare(plain_ratings(), plain_ratings()),
            (Said{{"opens-alike", Outcome::within_limits}, {"closes-alike", Outcome::within_limits}}));
}

TEST(Compare, TripPointsAgainstTheLimitsOfTheOriginal) {
  ThermostatRatings candidate = plain_ratings();
  candidate.opening.nominal = celsius(15);
  EXPECT_EQ(compare(plain_ratings(), candidate).count("opens-partly-alike"), 1U);
  candidate.opening.nominal = celsius(17);
  EXPECT_EQ(compare(plain_ratings(), candidate)["opens-warmer"], Outcome::out_of_limits);
  candidate.opening.nominal = celsius(7);
  EXPECT_EQ(compare(plain_ratings(), candidate)["opens-colder"], Outcome::out_of_limits);
  candidate.opening.nominal = celsius(14);
  candidate.opening.tolerance = candidate.opening.allowed = kelvin(2);
  EXPECT_EQ(compare(plain_ratings(), candidate)["opens-alike"], Outcome::within_limits);
  candidate.closing.nominal = celsius(-20);
  EXPECT_EQ(compare(plain_ratings(), candidate)["closes-elsewhere"], Outcome::out_of_limits);
}

// Figures that span all that a part may be (any-defrost) are no figures that another can match: any-defrost as its
// README and docs/technician.md state it, opening from 2 to 24 °C, closing from -24 to 5 °C.
TEST(Compare, NothingStandsInForAPartThatNobodyKnows) {
  ThermostatRatings anything = plain_ratings();
  anything.opening = {celsius(13), kelvin(11), kelvin(11)};
  anything.closing = {celsius(-9.5), kelvin(14.5), kelvin(14.5)};
  anything.unknown = true;
  const Said nobody_knows{{"original-unknown", Outcome::undecided}};
  for (const double opens : {5.0, 7.0, 13.0, 21.0}) {
    ThermostatRatings candidate = plain_ratings();
    candidate.opening.nominal = celsius(opens);
    EXPECT_EQ(compare(anything, candidate), nobody_knows) << opens;
    EXPECT_EQ(compare(candidate, anything), (Said{{"candidate-unknown", Outcome::undecided}})) << opens;
  }
  ThermostatRatings limit = plain_ratings();  // what no defrost thermostat is
  limit.opening.nominal = celsius(95);
  EXPECT_EQ(compare(anything, limit)["opens-warmer"], Outcome::out_of_limits);
}

// 15 ± 3 °C against 10 to 16 °C: (16 - 12)/6 of such parts.
TEST(Compare, SaysHowManyWouldFit) {
  ThermostatRatings candidate = plain_ratings();
  candidate.opening.nominal = celsius(15);
  const ThermostatRatings original = plain_ratings();
  const auto findings = compare_ratings(&original, &candidate, {});
  EXPECT_NEAR(argument(findings[0], "share_percent"), 100.0 * 4.0 / 6.0, 1e-9);
}

TEST(Compare, CurrentOfTheOriginalOrOfTheLoad) {
  ThermostatRatings original = plain_ratings();
  ThermostatRatings candidate = plain_ratings();
  original.rated_current = Current::from_value(10);
  EXPECT_EQ(compare(original, candidate)["current-unknown"], Outcome::undecided);
  candidate.rated_current = Current::from_value(8);
  EXPECT_EQ(compare(original, candidate)["current-too-small"], Outcome::out_of_limits);
  EXPECT_EQ(compare(original, candidate, 3.75)["current-enough"], Outcome::within_limits);
}

TEST(Compare, Voltage) {
  ThermostatRatings original = plain_ratings();
  ThermostatRatings candidate = plain_ratings();
  original.rated_voltage = Voltage::from_value(250);
  EXPECT_EQ(compare(original, candidate)["voltage-unknown"], Outcome::undecided);
  candidate.rated_voltage = Voltage::from_value(120);
  EXPECT_EQ(compare(original, candidate)["voltage-too-small"], Outcome::out_of_limits);
  candidate.rated_voltage = Voltage::from_value(250);
  EXPECT_EQ(compare(original, candidate)["voltage-enough"], Outcome::within_limits);
}

TEST(Compare, TheLinkIsNeverLeftOut) {
  EXPECT_EQ(compare(ratings_with_link(4), plain_ratings())["link-missing"], Outcome::out_of_limits);
  EXPECT_EQ(compare(plain_ratings(), ratings_with_link(4))["link-added"], Outcome::undecided);
  EXPECT_EQ(compare(ratings_with_link(4), ratings_with_link(4))["link-alike"], Outcome::within_limits);
  EXPECT_EQ(compare(ratings_with_link(4), ratings_with_link(2))["leads-differ"], Outcome::undecided);
  ThermostatRatings candidate = ratings_with_link(4);
  candidate.link->functioning = celsius(84);
  EXPECT_EQ(compare(ratings_with_link(4), candidate)["link-too-high"], Outcome::out_of_limits);
  candidate.link->functioning = celsius(72);
  EXPECT_EQ(compare(ratings_with_link(4), candidate)["link-alike"], Outcome::within_limits);
  candidate.link->functioning = celsius(60);
  EXPECT_EQ(compare(ratings_with_link(4), candidate)["link-low"], Outcome::undecided);
}

TEST(Compare, TypeOneDoesNotStandInForTypeTwo) {
  ThermostatRatings original = plain_ratings();
  original.action = Action::type_2;
  EXPECT_EQ(compare(original, type_1_ratings())["type-1-for-type-2"], Outcome::out_of_limits);
  EXPECT_EQ(compare(original, original)["type-alike"], Outcome::within_limits);
}

TEST(Compare, NothingKnownIsSaid) {
  const ThermostatKind kind;
  const auto findings = kind.compare(ThermostatPart(std::nullopt), ThermostatPart(plain_ratings()), {});
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].text.id, "ratings-unknown");
  EXPECT_EQ(findings[0].outcome, Outcome::undecided);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
