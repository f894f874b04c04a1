#include <cmath>

#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

const Finding& resistance_finding(const Findings& findings) { return finding_of(findings, resistance_at_temperature); }

// 11.00 kohm at 23.0 °C ± 1.0 K, 0.9 % + 3 × 0.01 kohm, against 10 942.64 ohm ± 5 %. Exact propagation of the two
// rectangles: 0.957791 (a grid of 4000 × 4000, and a Monte Carlo of 8 million: 0.95775). Here first order in ln R with
// the chord of the curve: within 2e-4 of it.
TEST(ResistanceRule, RoomTemperatureCaseOfTwoRectangles) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}}, no_leads_meter());
  const Finding& finding = resistance_finding(findings);
  EXPECT_EQ(finding.outcome, Outcome::within_limits);
  EXPECT_NEAR(finding.probability, 0.957791, 3e-4);
  EXPECT_NEAR(finding.measured->value_in_si(), 11000, 1e-9);
  EXPECT_NEAR(*finding.measured_uncertainty, 74.478185, 1e-5);
  EXPECT_NEAR(finding.limits.lower->value_in_si(), 0.95 * 10942.642403, 1e-3);
  EXPECT_NEAR(finding.limits.upper->value_in_si(), 1.05 * 10942.642403, 1e-3);
  EXPECT_NEAR(argument(finding, "nominal"), 10942.642403, 1e-4);
}

TEST(ResistanceRule, AtThirtyPartsPerThousandTheSameReadingIsUndecided) {
  const SensorRatings ratings = ratings_with(plain_ratings().curve, 0.02);
  const Findings findings = judge(ratings, {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}}, no_leads_meter());
  EXPECT_EQ(resistance_finding(findings).outcome, Outcome::undecided);
  // exact 0.440765 (grid 4000 × 4000); first order with chord
  EXPECT_NEAR(resistance_finding(findings).probability, 0.440765, 1e-3);
}

TEST(ResistanceRule, IceWaterDecidesWhatARoomThermometerCannot) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_EQ(resistance_finding(judge(ratings, {{.value = "33.10 kohm", .at = "0 degC +- 0.2 K"}})).outcome,
            Outcome::within_limits);
  EXPECT_EQ(resistance_finding(judge(ratings, {{.value = "33.10 kohm", .at = "0 degC +- 2 K"}})).outcome,
            Outcome::undecided);
}

TEST(ResistanceRule, FarOffIsCondemned) {
  const SensorRatings ratings = plain_ratings();
  for (const char* value : {"6.50 kohm", "17.0 kohm"})
    EXPECT_EQ(resistance_finding(judge(ratings, {{.value = value, .at = "23 degC +- 1 K"}})).outcome,
              Outcome::out_of_limits)
        << value;
}

TEST(ResistanceRule, LeadsAreSubtracted) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}});
  EXPECT_NEAR(resistance_finding(findings).measured->value_in_si(), 10999.8, 1e-9);
}

TEST(ResistanceRule, UnstatedConnectionIsSaidAloud) {
  const SensorRatings ratings = plain_ratings();
  const auto with = [&](const char* value) {
    return judge(ratings, {{.value = value, .at = "23 degC +- 1 K", .connection = Connection::unstated}});
  };
  EXPECT_EQ(outcome_of(with("11.0 kohm"), resistance_at_temperature), Outcome::within_limits);
  EXPECT_EQ(text_of(with("11.0 kohm"), resistance_at_temperature), "one-reading-high-connection-unstated");
  EXPECT_EQ(outcome_of(with("17.0 kohm"), resistance_at_temperature), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(with("6.5 kohm"), resistance_at_temperature), Outcome::undecided);
  EXPECT_EQ(text_of(with("6.5 kohm"), resistance_at_temperature), "low-connection-unstated");
}

TEST(ResistanceRule, LowWithUnstatedConnectionDoesNotCondemnThroughTheJointProbability) {
  const SensorRatings ratings = plain_ratings();
  const Verdict verdict =
      verdict_on(&ratings, {{.value = "6.5 kohm", .at = "23 degC +- 1 K", .connection = Connection::unstated}});
  EXPECT_EQ(verdict.outcome, Outcome::undecided);
  EXPECT_FALSE(verdict.probability_within);
}

TEST(ResistanceRule, SaysWhyItIsSilent) {
  const SensorRatings ratings = plain_ratings();
  const auto reason = [&](const Typed& typed) { return text_of(judge(ratings, {typed}), resistance_at_temperature); };
  EXPECT_EQ(reason({.value = "11 kohm"}), "no-temperature");
  EXPECT_EQ(reason({.value = "11 kohm", .at = "23 degC +- 1 K", .connection = Connection::in_circuit}),
            "only-in-circuit");
  EXPECT_EQ(reason({.value = "11 kohm", .at = "23 degC +- 1 K", .moisture = Moisture::wet}), "only-wet");
  EXPECT_EQ(reason({.value = "11 kohm", .at = "23 degC +- 1 K", .supply = Supply::live}), "only-live");
  EXPECT_EQ(reason({.value = "11 kohm", .at = "-150 degC +- 1 K"}), "outside-curve");
  EXPECT_EQ(reason({.value = "OL", .at = "23 degC +- 1 K"}), "no-reading");
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "11 kohm", .at = "23 degC +- 1 K"}}), resistance_at_temperature),
            "no-ratings");
}

TEST(ResistanceRule, DisagreeingReadingsProveNothingTogether) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .bath = "ice"},
                                 {.value = "22.0 kohm", .at = "0 degC +- 0.2 K", .bath = "ice"}};
  const Findings findings = judge(ratings, typed);
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
  EXPECT_EQ(text_of(findings, resistance_at_temperature), "disagreeing");
  EXPECT_EQ(outcome_of(findings, readings_agree), Outcome::undecided);
  EXPECT_EQ(verdict_on(&ratings, typed).outcome, Outcome::undecided);
}

TEST(ResistanceRule, RescaledUnitsChangeNothing) {
  const SensorRatings ratings = plain_ratings();
  const Finding a = resistance_finding(judge(ratings, {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}}));
  const Finding b = resistance_finding(judge(ratings, {{.value = "11000 ohm", .at = "73.4 degF +- 1.8 degF"}}));
  EXPECT_EQ(a.outcome, b.outcome);
  EXPECT_NEAR(a.probability, b.probability, 1e-9);
}

TEST(ResistanceRule, ReadingInCircuitNeverTurnsUndecidedIntoWithin) {
  const SensorRatings ratings = plain_ratings();
  const Typed doubtful{.value = "33.10 kohm", .at = "0 degC +- 2 K"};
  const Typed in_circuit{.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .connection = Connection::in_circuit};
  EXPECT_EQ(verdict_on(&ratings, {doubtful}).outcome, Outcome::undecided);
  EXPECT_EQ(verdict_on(&ratings, {doubtful, in_circuit}).outcome, Outcome::undecided);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
