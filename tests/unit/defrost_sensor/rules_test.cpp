#include <cmath>

#include <gtest/gtest.h>

#include "curves/platinum_curve.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

// ---- open

TEST(OpenRule, CondemnsOnlyPastTheUpperLimit) {
  const SensorRatings ratings = plain_ratings();
  const Findings high = judge(ratings, {{.value = "OL", .at = "-18 degC +- 1 K", .range = "6 Mohm"}});
  EXPECT_EQ(outcome_of(high, open_sensor), Outcome::out_of_limits);
  EXPECT_EQ(finding_of(high, open_sensor).meaning, ProbabilityMeaning::observed_if_within);
  const Findings low = judge(ratings, {{.value = "OL", .at = "-18 degC +- 1 K", .range = "60 kohm"}});
  EXPECT_EQ(outcome_of(low, open_sensor), Outcome::undecided);
  EXPECT_EQ(text_of(low, open_sensor), "range-too-low");
  EXPECT_EQ(advice_of(low), std::vector<std::string>{"higher-range"});
}

TEST(OpenRule, NeedsNoTemperatureWhenTheRangeReachesPastTheColdest) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_EQ(outcome_of(judge(ratings, {{.value = "OL", .range = "6 Mohm"}}), open_sensor), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(ratings, {{.value = "OL", .range = "60 kohm"}}), open_sensor), Outcome::undecided);
}

TEST(OpenRule, NeedsNoRatingsOnTheHighestRange) {
  EXPECT_EQ(outcome_of(judge(nullptr, {{.value = "OL", .range = "60 Mohm"}}), open_sensor), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(nullptr, {{.value = "OL", .range = "600 kohm"}}), open_sensor), Outcome::undecided);
}

TEST(OpenRule, IsSilentOtherwise) {
  const SensorRatings ratings = plain_ratings();
  const auto text = [&](const Typed& typed) { return text_of(judge(ratings, {typed}), open_sensor); };
  EXPECT_EQ(text({.value = "11 kohm", .at = "23 degC +- 1 K"}), "no-over-range");
  EXPECT_EQ(text({.value = "OL", .connection = Connection::in_circuit, .range = "6 Mohm"}), "only-in-circuit");
  EXPECT_EQ(text({.value = "OL", .supply = Supply::live, .range = "6 Mohm"}), "only-live");
}

// ---- short

TEST(ShortRule, CondemnsAReadingWithinTheLeads) {
  const SensorRatings ratings = plain_ratings();
  for (const char* value : {"0.2 ohm", "0.4 ohm", "0 ohm"})
    EXPECT_EQ(outcome_of(judge(ratings, {{.value = value, .at = "23 degC +- 1 K"}}), short_sensor),
              Outcome::out_of_limits)
        << value;
  EXPECT_EQ(outcome_of(judge(nullptr, {{.value = "0.3 ohm"}}), short_sensor), Outcome::out_of_limits);
}

TEST(ShortRule, LeavesALowResistanceToTheOtherRules) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "40 ohm", .at = "23 degC +- 1 K"}});
  EXPECT_EQ(text_of(findings, short_sensor), "no-short");
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::out_of_limits);
}

TEST(ShortRule, IsNotToldByARangeOfMegohms) {
  const SensorRatings ratings = plain_ratings();
  for (const char* value : {"0 ohm", "1 kohm"}) {
    const Findings findings = judge(ratings, {{.value = value, .at = "23 degC +- 1 K", .range = "2 Mohm"}});
    EXPECT_EQ(text_of(findings, short_sensor), "range-cannot-tell") << value;
    EXPECT_EQ(text_of(findings, resistance_at_temperature), "range-tells-nothing") << value;
    EXPECT_EQ(advice_of(findings), std::vector<std::string>{"lowest-range"}) << value;
  }
}

TEST(ShortRule, AsksWhetherTheConnectorWasOff) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "0.3 ohm", .connection = Connection::unstated}});
  EXPECT_EQ(outcome_of(findings, short_sensor), Outcome::undecided);
  EXPECT_EQ(advice_of(findings), std::vector<std::string>{"lift-a-lead"});
  EXPECT_EQ(text_of(judge(ratings, {{.value = "0.3 ohm", .connection = Connection::in_circuit}}), short_sensor),
            "only-in-circuit");
}

// ---- in circuit

Typed in_circuit_reading(std::string_view value, Supply supply = Supply::unplugged) {
  return {.value = value, .at = "0 degC +- 0.5 K", .connection = Connection::in_circuit, .supply = supply};
}

TEST(InCircuitRule, HighCondemnsEverythingBetweenTheProbesOnceProved) {
  const SensorRatings ratings = plain_ratings();
  const Typed high = in_circuit_reading("48 kohm");
  Typed swapped = in_circuit_reading("48.1 kohm");
  swapped.measurand = "resistance_swapped";
  const Typed volts{.value = "1 mV", .supply = Supply::unplugged, .measurand = "voltage"};
  EXPECT_EQ(text_of(judge(ratings, {high}), in_circuit), "high-not-proved");
  EXPECT_EQ(text_of(judge(ratings, {high, swapped}), in_circuit), "high-not-proved");
  EXPECT_EQ(text_of(judge(ratings, {high, volts}), in_circuit), "high-not-proved");
  EXPECT_EQ(outcome_of(judge(ratings, {high, swapped, volts}), in_circuit), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(ratings, {in_circuit_reading("48 kohm", Supply::proved_dead), swapped}), in_circuit),
            Outcome::out_of_limits);
}

TEST(InCircuitRule, SwappedProbesThatDisagreeOrVoltsProveNothing) {
  const SensorRatings ratings = plain_ratings();
  Typed swapped = in_circuit_reading("20 kohm");
  swapped.measurand = "resistance_swapped";
  EXPECT_EQ(outcome_of(judge(ratings, {in_circuit_reading("48 kohm", Supply::proved_dead), swapped}), in_circuit),
            Outcome::undecided);
  swapped.value = "48 kohm";
  const Typed volts{.value = "300 mV", .supply = Supply::unplugged, .measurand = "voltage"};
  EXPECT_EQ(outcome_of(judge(ratings, {in_circuit_reading("48 kohm"), swapped, volts}), in_circuit),
            Outcome::undecided);
}

TEST(InCircuitRule, OverRangeIsAHighReading) {
  const SensorRatings ratings = plain_ratings();
  Typed swapped = in_circuit_reading("OL", Supply::proved_dead);
  swapped.measurand = "resistance_swapped";
  swapped.range = "6 Mohm";
  Typed over = in_circuit_reading("OL", Supply::proved_dead);
  over.range = "6 Mohm";
  EXPECT_EQ(outcome_of(judge(ratings, {over, swapped}), in_circuit), Outcome::out_of_limits);
}

TEST(InCircuitRule, LowDecidesNothingAndWithinClearsNothing) {
  const SensorRatings ratings = plain_ratings();
  const Findings low = judge(ratings, {in_circuit_reading("8 kohm")});
  EXPECT_EQ(outcome_of(low, in_circuit), Outcome::undecided);
  EXPECT_EQ(text_of(low, in_circuit), "low-means-nothing");
  const Findings within = judge(ratings, {in_circuit_reading("33.9 kohm")});
  EXPECT_EQ(outcome_of(within, in_circuit), Outcome::undecided);
  EXPECT_EQ(text_of(within, in_circuit), "clears-nothing");
  EXPECT_EQ(verdict_on(&ratings, {in_circuit_reading("33.9 kohm")}).outcome, Outcome::undecided);
  EXPECT_EQ(text_of(judge(nullptr, {in_circuit_reading("33.9 kohm")}), in_circuit), "not-comparable");
  EXPECT_EQ(text_of(judge(ratings, {in_circuit_reading("33.9 kohm", Supply::live)}), in_circuit), "only-live");
}

// ---- repeats

TEST(SteadyRule, ThreeReadingsWithinHalfAPercentStandStill) {
  const SensorRatings ratings = plain_ratings();
  const auto with = [&](std::vector<std::string_view> repeats) {
    return judge(ratings, {{.value = "33.90 kohm", .at = "0 degC +- 0.2 K", .repeats = std::move(repeats)}});
  };
  EXPECT_EQ(outcome_of(with({"33.85 kohm", "33.95 kohm"}), steady_readings), Outcome::within_limits);
  EXPECT_EQ(text_of(with({"33.0 kohm", "32.2 kohm"}), steady_readings), "moving");
  EXPECT_EQ(text_of(with({"22.0 kohm", "34.2 kohm"}), steady_readings), "jumping");
  EXPECT_EQ(outcome_of(with({"33.0 kohm", "32.2 kohm"}), steady_readings), Outcome::undecided);
  EXPECT_EQ(outcome_of(with({}), steady_readings), Outcome::silent);
  // standard deviation of 33.90, 33.0, 32.2 is 0.8505 kohm, 2.574 % of their mean
  EXPECT_NEAR(argument(finding_of(with({"33.0 kohm", "32.2 kohm"}), steady_readings), "scatter_percent"), 2.574, 5e-3);
}

// ---- seat

TEST(SeatRule, ComparesWithTheCoil) {
  const SensorRatings ratings = plain_ratings();
  const auto with = [&](const char* value) {
    return judge(ratings, {{.value = value, .coil_at = "-18 degC +- 0.5 K"}});
  };
  EXPECT_EQ(outcome_of(with("94.7 kohm"), seated_on_coil), Outcome::within_limits);
  const Findings off = with("40 kohm");
  EXPECT_EQ(outcome_of(off, seated_on_coil), Outcome::undecided);
  EXPECT_EQ(text_of(off, seated_on_coil), "off-the-coil");
  EXPECT_EQ(advice_of(off), std::vector<std::string>{"seat-it-again"});
  EXPECT_EQ(text_of(with("80 kohm"), seated_on_coil), "not-told-apart");
  EXPECT_NEAR(argument(finding_of(off, seated_on_coil), "believed"),
              BetaCurve(beta_3977()).temperature(ohm(40000 - 0.2))->kelvin(), 1e-3);
  EXPECT_EQ(text_of(judge(ratings, {{.value = "94.7 kohm", .at = "-18 degC +- 0.5 K"}}), seated_on_coil),
            "no-coil-temperature");
}

// ---- control

SensorRatings with_control(std::optional<double> tolerance = 2.0) {
  SensorRatings ratings = plain_ratings();
  Control control;
  control.pull_up = ohm(10000);
  control.reference_voltage = Voltage::from_value(5.0);
  control.bits = 10;
  control.termination_temperature = celsius(10);
  if (tolerance) control.termination_tolerance = TemperatureDifference::from_value(*tolerance);
  ratings.control = control;
  return ratings;
}

// A sensor 10 % high at a true 10 °C: believed 8.091555 °C, ends at 11.934523 °C (numpy, GSL).
TEST(EndOfDefrostRule, TenPercentHighEndsLate) {
  const SensorRatings ratings = with_control(1.0);
  const Findings findings = judge(ratings, {{.value = "22.298754 kohm", .at = "10 degC +- 0.1 K"}}, no_leads_meter());
  const Finding& finding = finding_of(findings, end_of_defrost);
  EXPECT_NEAR(argument(finding, "believed") - 273.15, 8.091555, 1e-4);  // chord of ±0.1 K: 2e-5 K
  EXPECT_NEAR(argument(finding, "ends_at") - 273.15, 11.934523, 1e-4);
  EXPECT_EQ(finding.outcome, Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, end_of_defrost), "ends-late");
}

TEST(EndOfDefrostRule, EarlyInTimeAndTooUncertain) {
  const auto with = [](const char* value, const char* at) {
    return judge(with_control(), {{.value = value, .at = at}});
  };
  EXPECT_EQ(text_of(with("14.0 kohm", "10 degC +- 0.2 K"), end_of_defrost), "ends-early");
  EXPECT_EQ(outcome_of(with("20.3 kohm", "10 degC +- 0.2 K"), end_of_defrost), Outcome::within_limits);
  EXPECT_EQ(outcome_of(with("22.3 kohm", "10 degC +- 1 K"), end_of_defrost), Outcome::undecided);
}

TEST(EndOfDefrostRule, LowWithUnstatedConnectionDoesNotCondemn) {
  const Findings findings =
      judge(with_control(), {{.value = "14.0 kohm", .at = "10 degC +- 0.2 K", .connection = Connection::unstated}});
  EXPECT_EQ(outcome_of(findings, end_of_defrost), Outcome::undecided);
  EXPECT_EQ(text_of(findings, end_of_defrost), "connection-unstated");
}

TEST(EndOfDefrostRule, WithoutAToleranceItTellsAndDoesNotJudge) {
  const Findings findings = judge(with_control({}), {{.value = "22.3 kohm", .at = "10 degC +- 0.2 K"}});
  EXPECT_EQ(outcome_of(findings, end_of_defrost), Outcome::silent);
  EXPECT_EQ(text_of(findings, end_of_defrost), "no-tolerance");
  EXPECT_NEAR(argument(finding_of(findings, end_of_defrost), "late"), 1.93, 0.02);
  SensorRatings no_end = with_control();
  no_end.control->termination_temperature.reset();
  EXPECT_EQ(text_of(judge(no_end, {{.value = "22.3 kohm", .at = "10 degC +- 0.2 K"}}), end_of_defrost),
            "believed-only");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "22.3 kohm", .at = "10 degC +- 0.2 K"}}), end_of_defrost),
            "no-control");
}

TEST(EndOfDefrostRule, WrongPartFittedStopsTheHeaterBeforeAnythingMelts) {
  SensorRatings ratings = with_control();
  BetaCurve::Figures five = beta_3977();
  five.reference_resistance = ohm(5000);
  five.beta_kelvin = 3950;
  five.stated_span = TemperatureSpan{celsius(-40), celsius(85)};
  ratings.control->curve = ratings.curve;             // the control expects 10 kohm, 3977 K
  ratings.curve = std::make_shared<BetaCurve>(five);  // a good 5 kohm, 3950 K sensor is fitted
  const Findings findings = judge(ratings, {{.value = "46.62620 kohm", .at = "-18 degC +- 0.2 K"}}, no_leads_meter());
  const Finding& finding = finding_of(findings, end_of_defrost);
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::within_limits);
  EXPECT_NEAR(argument(finding, "believed") - 273.15, -5.851564, 1e-3);  // chord of ±0.2 K: 1e-4 K
  EXPECT_NEAR(argument(finding, "ends_at") - 273.15, -3.491330, 1e-3);
  EXPECT_EQ(text_of(findings, end_of_defrost), "ends-early");
}

// ---- volts

// 10 Mohm voltmeter on a live divider, 5 V, 10 kohm pull-up, 10 kohm class at 0 °C: 3.858080 V, +0.063506 K (numpy,
// mpmath).
TEST(VoltsRule, TakesTheMeterOffTheSensor) {
  SensorRatings ratings = with_control();
  ratings.watts_per_kelvin = 2e-3;
  const Findings findings = judge(
      ratings,
      {{.value = "3.858080 V", .connection = Connection::in_circuit, .supply = Supply::live, .measurand = "voltage"}});
  const Finding& finding = finding_of(findings, volts_at_board);
  EXPECT_EQ(finding.outcome, Outcome::undecided);
  EXPECT_EQ(text_of(findings, volts_at_board), "with-self-heating");
  EXPECT_NEAR(argument(finding, "believed") - 273.15, 0.0, 1e-4);
  EXPECT_NEAR(argument(finding, "meter_load"), 0.063506, 1e-5);
  EXPECT_NEAR(argument(finding, "resistance"), 33900.42, 0.5);
  // V²/R = 3.858080²/33900.42 = 0.43907 mW at 2 mW/K
  EXPECT_NEAR(argument(finding, "self_heating"), 0.219536, 1e-4);
}

TEST(VoltsRule, SaysWhenTheVoltageCannotBe) {
  const auto with = [](const SensorRatings& ratings, const char* value, Supply supply = Supply::live) {
    return judge(ratings, {{.value = value, .supply = supply, .measurand = "voltage"}});
  };
  EXPECT_EQ(text_of(with(with_control(), "5.2 V"), volts_at_board), "open-across");
  EXPECT_EQ(text_of(with(with_control(), "0 V"), volts_at_board), "short-across");
  SensorRatings to_supply = with_control();  // across the sensor it shows the same at either end of the supply
  to_supply.control->sensor_to = Control::SensorTo::supply;
  EXPECT_EQ(text_of(with(to_supply, "5.0 V"), volts_at_board), "open-across");
  EXPECT_EQ(text_of(with(to_supply, "0 V"), volts_at_board), "short-across");
  EXPECT_EQ(text_of(with(with_control(), "-2.5 V"), volts_at_board), "seen-from-board") << "swapped probes";
  EXPECT_EQ(text_of(with(plain_ratings(), "3 V"), volts_at_board), "no-control");
  EXPECT_EQ(advice_of(with(plain_ratings(), "3 V")), std::vector<std::string>{"name-the-control"});
  EXPECT_EQ(text_of(with(with_control(), "3 V", Supply::unplugged), volts_at_board), "no-live-volts");
}

TEST(ShortRule, IsNoShortWhatACoarseRangeOrAWideDoubtShows) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_EQ(text_of(judge(ratings, {{.value = "0.00 Mohm", .range = "60 Mohm"}}), short_sensor), "range-cannot-tell");
  EXPECT_EQ(text_of(judge(ratings, {{.value = "11 kohm +- 12 kohm", .at = "23 degC +- 1 K"}}), short_sensor),
            "no-short");
  EXPECT_EQ(text_of(judge(ratings, {{.value = "0.3 ohm +- 0.1 ohm"}}), short_sensor), "shorted");
}

// ---- nothing known

TEST(ClassRule, RanksTheClassesThatMatch) {
  const Findings findings = judge(nullptr, {{.value = "32.6 kohm", .at = "0 degC +- 0.2 K"}});
  const Finding& finding = finding_of(findings, matching_class);
  EXPECT_EQ(finding.outcome, Outcome::undecided);
  EXPECT_EQ(std::get<std::string>(finding.arguments[0].value), "ntc-10k-b3977");
  EXPECT_EQ(advice_of(findings), (std::vector<std::string>{"find-the-sheet", "compare-twin"}));
  EXPECT_EQ(verdict_on(nullptr, {{.value = "32.6 kohm", .at = "0 degC +- 0.2 K"}}).outcome, Outcome::undecided);
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "32.6 kohm"}}), matching_class), "no-reading");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "32.6 kohm", .at = "0 degC +- 0.2 K"}}), matching_class),
            "ratings-known");
}

TEST(TwinRule, ComparesAndLetsTheSharedGainCancel) {
  const Findings findings = judge(
      nullptr, {{.value = "10.00 kohm"}, {.value = "10.50 kohm", .measurand = "twin_resistance"}}, no_leads_meter());
  const Finding& finding = finding_of(findings, twin_comparison);
  EXPECT_EQ(finding.outcome, Outcome::undecided);
  EXPECT_NEAR(argument(finding, "difference_percent"), -100.0 * (0.5 / 10.5), 1e-9);
  EXPECT_LT(argument(finding, "uncertainty_percent"), 0.9 / std::sqrt(3.0) * std::sqrt(2.0));
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "10 kohm"}}), twin_comparison), "no-twin");
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "10 kohm", .measurand = "twin_resistance"}}), twin_comparison),
            "no-reading");
}

// ---- platinum

TEST(Platinum, OvenSensorIsJudgedByItsClass) {
  const SensorRatings ratings{
      std::make_shared<PlatinumCurve>(ohm(1000), PlatinumClass::b), Tolerance(OfClass{PlatinumClass::b}), {}, {}};
  const auto with = [&](const char* value) {
    return outcome_of(judge(ratings, {{.value = value, .at = "0 degC +- 0.1 K"}}), resistance_at_temperature);
  };
  EXPECT_EQ(with("1000.2 ohm +- 0.3 ohm"), Outcome::within_limits);
  EXPECT_EQ(with("1010 ohm +- 0.3 ohm"), Outcome::out_of_limits);
  EXPECT_EQ(with("1001.2 ohm +- 0.3 ohm"), Outcome::undecided);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
