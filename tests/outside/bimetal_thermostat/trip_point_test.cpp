#include <cmath>

#include <gtest/gtest.h>

#include "part/passages.hpp"
#include "thermostat_fixture.hpp"

// Trip points from series. The bracket and its uncertainty: GUM 4.3.7 (rectangular, half-width over root 3) and 5.1.
// Figures marked "two programs" were computed by programs that share no code with this one or with each other.

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

const Finding& opening_of(const Findings& findings) { return finding_of(findings, opening_point); }

Findings judge_series(const std::vector<Step>& steps, double half_width) {
  const ThermostatRatings ratings = plain_ratings();
  return judge(&ratings, series(steps, half_width));
}

// Closed at 12.2 °C, open at 13.4 °C: 12.8 °C, u = 1.2/(2√3) = 0.346410 K (GUM 4.3.7; by hand).
TEST(TripPointOutside, LiesInTheMiddleOfItsBracket) {
  const Findings findings = judge_series({{'C', 12.2}, {'O', 13.4}}, 0.0);
  EXPECT_NEAR(argument(opening_of(findings), "trip"), celsius(12.8).kelvin(), 1e-9);
  EXPECT_NEAR(*opening_of(findings).measured_uncertainty, 0.346410, 5e-7);
}

// The same with a thermometer of ±0.5 K, rectangular: u = 0.450925 K (GUM 5.1, numpy).
TEST(TripPointOutside, TakesTheThermometerAlong) {
  const Findings findings = judge_series({{'C', 12.2}, {'O', 13.4}}, 0.5);
  EXPECT_NEAR(*opening_of(findings).measured_uncertainty, 0.450925, 5e-7);
}

// Ramp of 0.5 K a minute, time constant 1.5 min: 0.75 K of lag (first-order lag, by hand).
TEST(TripPointOutside, LosesItsLag) {
  const Typed closed{.value = "closed", .at = "12.2 degC +- 0 K", .ramp = "0.5 K +- 0 K", .lag = "1.5 min +- 0 s"};
  const Typed open{.value = "OL", .at = "13.4 degC +- 0 K", .ramp = "0.5 K +- 0 K", .lag = "1.5 min +- 0 s"};
  const Findings findings = judge(plain_ratings(), {closed, open});
  EXPECT_NEAR(argument(opening_of(findings), "lag"), 0.75, 1e-12);
  EXPECT_NEAR(argument(opening_of(findings), "trip"), celsius(12.8 - 0.75).kelvin(), 1e-9);
  EXPECT_NEAR(*opening_of(findings).measured_uncertainty, 0.346410, 5e-7);
}

// Brackets (12.2, 13.4), (12.0, 13.1), (12.6, 13.2): the midpoints average 12.75 with s = 0.180278; their intersection
// (12.6, 13.1) gives 12.85, u = 0.144338 (exact fractions and mpmath).
TEST(TripPointOutside, CyclesGiveTwoEstimatesAndBothArePrinted) {
  Passages passages;
  passages.add(12.2, 13.4);
  passages.add(12.0, 13.1);
  passages.add(12.6, 13.2);
  EXPECT_NEAR(passages.mean(), 12.75, 1e-12);
  EXPECT_NEAR(passages.standard_deviation(), 0.180278, 5e-7);
  EXPECT_FALSE(passages.scatter());
  EXPECT_NEAR(passages.from(), 12.6, 1e-12);
  EXPECT_NEAR(passages.to(), 13.1, 1e-12);
  EXPECT_NEAR(passages.middle(), 12.85, 1e-12);
  EXPECT_NEAR(0.5 * passages.width() / std::sqrt(3.0), 0.144338, 5e-7);
}

TEST(TripPointOutside, TheSameThroughTheRule) {
  const Findings findings = judge_series({{'C', 12.2},
                                          {'O', 13.4},
                                          {'O', -4},
                                          {'C', -5},
                                          {'C', 12.0},
                                          {'O', 13.1},
                                          {'O', -4},
                                          {'C', -5},
                                          {'C', 12.6},
                                          {'O', 13.2}},
                                         0.0);
  EXPECT_NEAR(argument(opening_of(findings), "mean"), celsius(12.75).kelvin(), 1e-9);
  EXPECT_NEAR(argument(opening_of(findings), "deviation"), 0.180278, 5e-7);
  EXPECT_NEAR(argument(opening_of(findings), "trip"), celsius(12.85).kelvin(), 1e-9);
  EXPECT_NEAR(*opening_of(findings).measured_uncertainty, 0.144338, 5e-7);
}

// An empty intersection proves scatter: the least upper end lies below the greatest lower end (interval arithmetic).
TEST(TripPointOutside, AnEmptyIntersectionIsScatter) {
  Passages passages;
  passages.add(12.2, 12.6);
  passages.add(12.7, 13.1);
  EXPECT_TRUE(passages.scatter());
  EXPECT_NEAR(passages.from(), 12.2, 1e-12);
  EXPECT_NEAR(passages.to(), 13.1, 1e-12);
}

// Two rectangles of half-width 0.45 K and 1 K at 15.45 °C, limit 16 °C: 0.775 (JCGM 106; mpmath quadrature).
TEST(TripPointOutside, ConformanceOfTwoRectangles) {
  const Findings findings = judge_series({{'C', 15.0}, {'O', 15.9}}, 1.0);
  EXPECT_NEAR(opening_of(findings).probability, 0.775, 1e-9);
  EXPECT_EQ(opening_of(findings).outcome, Outcome::undecided);
}

// A thermometer's error e lies evenly within 1 K, the trip g evenly within 0.2 K of 15.06 °C; within 16 °C is e + g <=
// 0.94. Alone: 0.87 + (0.4/2)(1 - 0.35²)/2 = 0.95775. Two independent ones: its square, 0.9172850625. With one e for
// both: 0.87 + (0.4/3)(1 - 0.35³)/2 = 0.9338083333 (JCGM 106; by hand).
TEST(TripPointOutside, TwoTripPointsAreJudgedTogether) {
  const auto verdict = [](std::string_view thermometer) {
    const ThermostatRatings ratings = plain_ratings();
    return verdict_on(ratings,
                      readings_of({{.value = "closed", .at = "14.86 degC +- 1 K", .thermometer = thermometer},
                                   {.value = "OL", .at = "15.26 degC +- 1 K", .thermometer = thermometer},
                                   {.value = "OL", .at = "-0.74 degC +- 1 K", .thermometer = thermometer},
                                   {.value = "closed", .at = "-1.14 degC +- 1 K", .thermometer = thermometer}}));
  };
  EXPECT_NEAR(*verdict("").probability_within, 0.9172850625, 1e-9);
  EXPECT_EQ(verdict("").outcome, Outcome::undecided);
  EXPECT_NEAR(*verdict("one").probability_within, 0.9338083333, 1e-9);
  EXPECT_EQ(verdict("one").outcome, Outcome::undecided);
}

// No failure in n trials bounds the share of failures: exact binomial (Clopper–Pearson), 1 - 0.05^(1/10) = 0.258866 for
// ten, the "rule of three" for many (mpmath).
TEST(TripPointOutside, TenCleanCyclesHideAStickerOfOneInFour) {
  std::vector<Step> steps;
  for (int i = 0; i < 10; ++i) steps.insert(steps.end(), {{'C', 12.5}, {'O', 13.3}, {'O', -4}, {'C', -4.8}});
  EXPECT_NEAR(argument(finding_of(judge_series(steps, 0.5), stuck), "missed_percent"), 25.8865551, 5e-8);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
