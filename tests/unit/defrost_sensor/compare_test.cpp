#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/report/comparison_report.hpp>

#include "compare_fixture.hpp"
#include "sensor_kind.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::StartsWith;

TEST(Compare, SameRatingsAreEquivalent) {
  const SensorRatings ratings = in_a_control(full_curve_3977(), 10);
  EXPECT_THAT(said_of(compare(ratings, ratings)), ElementsAre("within-limits one-curve", "within-limits alike-at-room",
                                                              "within-limits as-close", "within-limits ends-alike"));
  EXPECT_EQ(equivalence(compare(ratings, ratings)), Outcome::within_limits);
}

TEST(Compare, SmallDifferenceIsWithinWhatTheOriginalMayBeOffBy) {
  const auto findings = compare(vouched_beta(3977), vouched_beta(3950));
  EXPECT_THAT(said_of(findings), ElementsAre("within-limits same-curve", "within-limits alike-at-room",
                                             "within-limits as-close", "silent no-control"));
  const EquivalenceFinding& same = findings[0];
  EXPECT_NEAR(told(same, "where"), celsius(-30).kelvin(), 1e-9);
  EXPECT_NEAR(told(same, "percent"), 100 * -std::expm1(-27 * (1 / 243.15 - 1 / 298.15)), 0.005);
  EXPECT_NEAR(told(same, "allowed"), 5.0, 1e-9);
}

TEST(Compare, CurvesThatMeetAt25AndPartInTheColdAreCaught) {
  const auto findings = compare(in_a_control(vouched_beta(3977), 10), vouched_beta(3435), -20, 30);
  EXPECT_THAT(said_of(findings),
              ElementsAre("out-of-limits reads-low-though-alike-at-room-ends-early", "within-limits alike-at-room-only",
                          "within-limits as-close", "out-of-limits ends-early"));
  EXPECT_NEAR(told(findings[0], "where"), celsius(-20).kelvin(), 1e-9);
  const auto reverse = compare(vouched_beta(3435), vouched_beta(3977), -20, 30);
  EXPECT_EQ(reverse[0].text.id, "reads-high-though-alike-at-room-ends-late");
  EXPECT_EQ(reverse[0].outcome, Outcome::out_of_limits);
}

TEST(Compare, OffsetAtEveryTemperatureIsNotCalledAlikeAt25) {
  EXPECT_THAT(said_of(compare(vouched_beta(3977), vouched_beta(3977, 9000))),
              ElementsAre("out-of-limits reads-low-ends-early", "out-of-limits lower-value", "within-limits as-close",
                          "silent no-control"));
  EXPECT_THAT(said_of(compare(vouched_beta(3977), vouched_beta(3977, 11000))),
              ElementsAre("out-of-limits reads-high-ends-late", "out-of-limits higher-value", "within-limits as-close",
                          "silent no-control"));
}

// It reads 8 % low at -30 °C and a little high at 10 °C: there the defrost would not end early.
TEST(Compare, SaysNothingOfTheDefrostWhereItEndsAsBefore) {
  const auto findings = compare(vouched_beta(3977), vouched_beta(3800, 10500), -30, 10);
  EXPECT_EQ(findings[0].text.id, "reads-low-though-alike-at-room");
}

TEST(Compare, BetaOutsideItsSpanIsUndecidedNeverAPass) {
  EXPECT_EQ(compare(two_point_beta_of(3977), full_curve_3977())[0].text.id, "original-unknown-there");
  EXPECT_EQ(compare(full_curve_3977(), two_point_beta_of(3977))[0].text.id, "candidate-unknown-there");
  const auto both = compare(two_point_beta_of(3977), two_point_beta_of(3977));
  EXPECT_EQ(both[0].text.id, "both-unknown-there");  // one label, two materials
  for (const auto& findings : {compare(two_point_beta_of(3977), full_curve_3977()),
                               compare(full_curve_3977(), two_point_beta_of(3977)), both}) {
    EXPECT_EQ(findings[0].outcome, Outcome::undecided);
    EXPECT_EQ(findings[1].text.id, "alike-at-room-only");
    EXPECT_EQ(equivalence(findings), Outcome::undecided);
  }
  EXPECT_EQ(compare(two_point_beta_of(3977), full_curve_3977(), 25, 85)[0].outcome, Outcome::within_limits);
}

TEST(Compare, BetaOutsideItsSpanIsStillCondemnedWhereNoMaterialCouldMeet) {
  EXPECT_EQ(compare(full_curve_3977(), two_point_beta_of(3435))[0].outcome, Outcome::out_of_limits);
  EXPECT_EQ(compare(two_point_beta_of(3977), two_point_beta_of(3435))[0].outcome, Outcome::out_of_limits);
}

/// The published material at its two ends only.
SensorRatings chart_of_two_rows() {
  const FourCoefficientCurve real = published_four_coefficient();
  return ratings_with(std::make_shared<ChartCurve>(std::vector<CurvePoint>{
      {celsius(-40), real.resistance(celsius(-40))}, {celsius(85), real.resistance(celsius(85))}}));
}

TEST(Compare, ChartWithRowsFarApartIsUndecided) {
  EXPECT_THAT(said_of(compare(full_curve_3977(), chart_of_two_rows())),
              ElementsAre("undecided rows-far-apart", "undecided unsure-at-room", "within-limits as-close",
                          "silent no-control"));
}

TEST(Compare, SlippedValueIsAskedFor) {
  for (const double factor : {10.0, 100.0, 1000.0}) {
    const auto findings = compare(vouched_beta(3977), vouched_beta(3977, 10000 * factor));
    EXPECT_EQ(told(finding_called(findings, "slipped-value"), "factor"), factor);
    EXPECT_EQ(told(finding_called(compare(vouched_beta(3977), vouched_beta(3977, 10000 / factor)), "slipped-value"),
                   "factor"),
              factor);
  }
}

TEST(Compare, AnotherValueAltogether) {
  const auto findings = compare(vouched_beta(3977), vouched_beta(3977, 3000));
  EXPECT_EQ(findings[0].text.id, "far-apart");
  EXPECT_EQ(findings[1].text.id, "lower-value");
  EXPECT_EQ(compare(platinum(1000), platinum(100))[0].text.id, "past-everything");
}

TEST(Compare, PlatinumAgainstThermistor) {
  EXPECT_THAT(said_of(compare(vouched_beta(3977), platinum(1000))), ElementsAre("out-of-limits candidate-rises"));
  EXPECT_THAT(said_of(compare(platinum(1000), vouched_beta(3977))), ElementsAre("out-of-limits candidate-falls"));
}

TEST(Compare, PlatinumAgainstPlatinum) {
  EXPECT_THAT(said_of(compare(platinum(1000), platinum(1000, PlatinumClass::a))),
              ElementsAre("within-limits one-curve", "within-limits alike-at-room", "within-limits as-close",
                          "silent no-control"));
  EXPECT_EQ(compare(platinum(1000, PlatinumClass::a), platinum(1000))[2].text.id, "wider-tolerance");
  EXPECT_EQ(compare(platinum(1000), platinum(1010))[0].text.id, "reads-warmer");
  EXPECT_EQ(compare(platinum(1000), platinum(990))[0].text.id, "reads-colder");
}

TEST(Compare, WiderToleranceMustBeReadFirst) {
  SensorRatings wide = vouched_beta(3977);
  wide.tolerance = Tolerance(OfResistance{0.1});
  const auto findings = compare(vouched_beta(3977), wide);
  const EquivalenceFinding& wider = finding_called(findings, "wider-tolerance");
  EXPECT_EQ(wider.outcome, Outcome::undecided);
  EXPECT_NEAR(told(wider, "original"), 5.0, 1e-9);
  EXPECT_NEAR(told(wider, "candidate"), 10.0, 1e-9);
  EXPECT_EQ(compare(wide, vouched_beta(3977))[2].text.id, "as-close");
}

TEST(Compare, EndOfDefrost) {
  const SensorRatings original = in_a_control(vouched_beta(3977), 10);
  const auto end = [&](const SensorRatings& from, const SensorRatings& to) { return compare(from, to).back(); };
  EXPECT_EQ(end(original, vouched_beta(3977, 9000)).text.id, "ends-early");
  EXPECT_EQ(end(original, vouched_beta(3977, 11000)).text.id, "ends-late");
  EXPECT_EQ(end(original, vouched_beta(3977, 10200)).text.id, "ends-alike");
  EXPECT_EQ(end(original, two_point_beta_of(3977)).text.id, "ends-alike");  // 25 °C is near: 1 K early at most
  EXPECT_EQ(end(in_a_control(vouched_beta(3977), 0), two_point_beta_of(3977)).text.id, "end-unknown");
  EXPECT_EQ(end(original, vouched_beta(3977, 1e12)).text.id, "never-ends");
  EXPECT_EQ(end(vouched_beta(3977), original).text.id, "no-control");  // the candidate's own control is elsewhere
  // A change that the control's own tolerance allows is told with that, and is no sameness. By hand from the beta
  // equation: B 3977 has 20.27 kohm at 10 °C, and B 3435 has them at 7.77 °C.
  SensorRatings tolerant = original;
  tolerant.control->termination_tolerance = TemperatureDifference::from_value(3.0);
  const EquivalenceFinding near_enough = end(tolerant, vouched_beta(3435));
  EXPECT_EQ(near_enough.text.id, "ends-within-control");
  EXPECT_NEAR(told(near_enough, "off"), 2.23, 0.01);
  SensorRatings strict = original;
  strict.control->termination_tolerance = TemperatureDifference::from_value(0.2);
  EXPECT_EQ(end(strict, vouched_beta(3977, 10200)).text.id, "ends-late");
  EXPECT_NEAR(told(end(strict, vouched_beta(3977, 10200)), "allowed"), 0.2, 1e-12);
}

// A control with a curve of its own: the sensor that it was made for ends on time, whatever the original's ratings.
TEST(Compare, EndOfDefrostByTheCurveOfTheControl) {
  SensorRatings original = in_a_control(vouched_beta(3977), 10);
  original.control->curve = vouched_beta(3950, 5000).curve;
  const EquivalenceFinding end = compare(original, vouched_beta(3950, 5000)).back();
  EXPECT_EQ(end.text.id, "ends-alike");
  EXPECT_NEAR(told(end, "off"), 0.0, 1e-9);
}

TEST(Compare, SpanIsTheOneAskedForAsFarAsTheCurvesReach) {
  const SensorRatings a = vouched_beta(3977);
  EXPECT_NEAR(told(compare(a, a, {}, {})[0], "from"), celsius(-30).kelvin(), 1e-9);
  EXPECT_NEAR(told(compare(a, a, {}, {})[0], "to"), celsius(30).kelvin(), 1e-9);
  EXPECT_NEAR(told(compare(a, a, 40, {})[0], "from"), celsius(40).kelvin(), 1e-9);
  EXPECT_NEAR(told(compare(a, a, 40, {})[0], "to"), celsius(40).kelvin(), 1e-9);
  EXPECT_NEAR(told(compare(a, a, {}, -35)[0], "from"), celsius(-35).kelvin(), 1e-9);
  EXPECT_NEAR(told(compare(a, a, 0, 20)[0], "to"), celsius(20).kelvin(), 1e-9);
  EXPECT_EQ(compare(a, a, 300, 400)[0].text.id, "out-of-reach");
}

TEST(Compare, NothingKnownIsNothingCompared) {
  const SensorKind kind;
  std::vector<Problem> problems;
  const auto unknown = kind.make_part(nullptr, problems);
  const SensorPart known(vouched_beta(3977));
  EXPECT_THAT(said_of(kind.compare(*unknown, known, {})), ElementsAre("undecided nothing-known"));
  EXPECT_THAT(said_of(kind.compare(known, *unknown, {})), ElementsAre("undecided nothing-known"));
  EXPECT_EQ(kind.compare(known, known, {}).size(), 4U);
}

TEST(Compare, SpeaksAsATechnicianDoes) {
  const auto findings = compare(in_a_control(vouched_beta(3977), 10), vouched_beta(3435), -20, 30);
  const Sentences say{UnitPreferences{}};
  const std::string page = comparison_page({descriptor(), "old", "new", findings}, say, {100, false});
  EXPECT_THAT(page, StartsWith("NOT EQUIVALENT: new cannot stand in for old\n"));
  EXPECT_THAT(page, HasSubstr("At 25.0 °C it reads alike, but at -20.0 °C it reads 27.6 % low"));
  EXPECT_THAT(page, HasSubstr("a good original is at most"));
  EXPECT_THAT(page, HasSubstr("the defrost would end early."));
}

/// Every sentence: no field without its argument.
TEST(Compare, SaysWholeSentences) {
  const SensorRatings ntc = in_a_control(vouched_beta(3977), 10);
  SensorRatings wide = vouched_beta(3977);
  wide.tolerance = Tolerance(OfResistance{0.1});
  const Sentences say{UnitPreferences{}};
  const std::pair<SensorRatings, SensorRatings> pairs[] = {
      {ntc, ntc},
      {ntc, vouched_beta(3960)},
      {ntc, vouched_beta(3435)},
      {vouched_beta(3435), ntc},
      {ntc, vouched_beta(3977, 9000)},
      {ntc, vouched_beta(3977, 11000)},
      {ntc, vouched_beta(3800, 10500)},
      {vouched_beta(3800, 10500), ntc},
      {ntc, vouched_beta(3977, 1e5)},
      {ntc, vouched_beta(3977, 1e12)},
      {ntc, two_point_beta_of(3977)},
      {two_point_beta_of(3977), ntc},
      {two_point_beta_of(3977), two_point_beta_of(3977)},
      {full_curve_3977(), chart_of_two_rows()},
      {in_a_control(vouched_beta(3977), 0), two_point_beta_of(3977)},
      {ntc, wide},
      {ntc, platinum(1000)},
      {platinum(1000), ntc},
      {platinum(1000), platinum(1010)},
      {platinum(1000), platinum(990)},
      {platinum(1000), platinum(100)},
  };
  for (const auto& [original, candidate] : pairs) {
    for (const EquivalenceFinding& finding : compare(original, candidate)) {
      const std::string text = say(finding.text.english, view(finding.arguments));
      EXPECT_EQ(text.find('{'), std::string::npos) << text;
    }
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
