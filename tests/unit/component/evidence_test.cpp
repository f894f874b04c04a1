#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/evidence_parts.hpp>
#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::basic_meter;
using testing::resistance_reading;
using testing::test_descriptor;

const double sqrt3 = std::sqrt(3.0);

TEST(Evidence, ALoneReadingHasTheMetersBoundAsOneRectangle) {
  // 11.00 kΩ, 0.9 % + 3 × 0.01 kΩ: a = 0.129 kΩ, u = 0.074478185 kΩ (GUM 4.3.7).
  const std::vector<Reading> readings{resistance_reading("11.0 kohm")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NEAR(evidence.readings()[0].value.standard_uncertainty(), 74.478185, 1e-6);
  EXPECT_EQ(evidence.readings()[0].value.terms().size(), 1U);
}

TEST(Evidence, LeadsAreSubtractedAndTheirDoubtStays) {
  // Heater 32.4 Ω, leads 0.3 ± 0.05 Ω, 0.9 % + 2 × 0.1: u = 0.285290 Ω (JCGM 106 budget, two programs).
  const std::vector<Reading> readings{resistance_reading("32.4 ohm")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0.3 ohm ± 0.05 ohm", 2)}));
  EXPECT_NEAR(evidence.readings()[0].value.value(), 32.1, 1e-12);
  EXPECT_NEAR(evidence.readings()[0].value.standard_uncertainty(), 0.285290, 1e-6);
}

TEST(Evidence, ReadingsOfOneMeterShareItsGainAndKeepTheirOwnVariance) {
  const std::vector<Reading> readings{resistance_reading("11.0 kohm"), resistance_reading("5.0 kohm")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  const Estimate& first = evidence.readings()[0].value;
  const Estimate& second = evidence.readings()[1].value;
  EXPECT_NEAR(first.standard_uncertainty(), 74.478185, 1e-6);
  EXPECT_NEAR(covariance(first, second), (99.0 / sqrt3) * (45.0 / sqrt3), 1e-9);
}

TEST(Evidence, ReadingsInOneBathShareItsError) {
  std::vector<Reading> readings{resistance_reading("11.0 kohm"), resistance_reading("11.1 kohm")};
  for (Reading& reading : readings)
    reading.conditions.push_back(
        {"part_temperature", parse_stated_value("0 degC ± 0.2 K", Dimension::temperature), "bath"});
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  const Estimate* first = evidence.readings()[0].condition(0);
  const Estimate* second = evidence.readings()[1].condition(0);
  ASSERT_NE(first, nullptr);
  ASSERT_NE(second, nullptr);
  EXPECT_NEAR(covariance(*first, *second), 0.04 / 3.0, 1e-12);
}

TEST(Evidence, ADurationIsReadOffAWatch) {
  Descriptor timer = test_descriptor();
  timer.measurands[0].dimension = Dimension::duration;
  std::vector<Reading> readings{resistance_reading("11.0 kohm")};
  readings[0].observed = parse_stated_value("21 min", Dimension::duration);
  const auto u_of_it = [&] {
    const Evidence evidence(timer, readings, MeterSet({basic_meter("0 ohm")}));
    return evidence.readings()[0].value.standard_uncertainty();
  };
  EXPECT_NEAR(u_of_it(), 60.0 / sqrt3, 1e-9);  // to the minute
  readings[0].observed = parse_stated_value("21 min ± 2 min", Dimension::duration);
  EXPECT_NEAR(u_of_it(), 120.0 / sqrt3, 1e-9);
}

TEST(Evidence, AConditionWithoutUncertaintyTakesTheKindsDefault) {
  std::vector<Reading> readings{resistance_reading("11.0 kohm")};
  readings[0].conditions.push_back({"part_temperature", parse_stated_value("23C", Dimension::temperature), ""});
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NEAR(evidence.readings()[0].condition(0)->standard_uncertainty(), 2.0 / sqrt3, 1e-12);
}

TEST(Evidence, BringsTheErrorSourcesOfTheKindItself) {
  Descriptor descriptor = test_descriptor();
  descriptor.error_sources = {{"first-gap", "the first gap"}, {"second-gap", "the second gap", Shape::normal}};
  const std::vector<Reading> readings{resistance_reading("11.0 kohm")};
  const Evidence evidence(descriptor, readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_EQ(evidence.sources()[Evidence::model_source].id, "model");
  EXPECT_EQ(evidence.sources()[Evidence::own_source(0)].id, "first-gap");
  EXPECT_EQ(evidence.sources()[Evidence::own_source(0)].shape, Shape::rectangular);
  EXPECT_EQ(evidence.sources()[Evidence::own_source(1)].id, "second-gap");
  EXPECT_EQ(evidence.sources()[Evidence::own_source(1)].shape, Shape::normal);
  EXPECT_EQ(evidence.readings()[0].value.terms()[0].source, Evidence::own_source(2));
}

TEST(Evidence, RepeatsGiveTheMeanAndItsScatterWithItsDegreesOfFreedom) {
  std::vector<Reading> readings{resistance_reading("10.0 kohm")};
  readings[0].repeats = {10100.0, 10200.0};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NEAR(evidence.readings()[0].value.value(), 10100.0, 1e-9);
  bool found = false;
  for (const Term& term : evidence.readings()[0].value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    if (source.id != "repeatability") continue;
    found = true;
    EXPECT_NEAR(term.standard_uncertainty, 100.0 / sqrt3, 1e-9);  // s = 100, n = 3 (GUM 4.2.3)
    EXPECT_EQ(source.degrees_of_freedom, 2.0);
  }
  EXPECT_TRUE(found);
}

TEST(Evidence, AStatedUncertaintyReplacesTheMeters) {
  const std::vector<Reading> readings{resistance_reading("11.0 kohm ± 0.3 kohm")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NEAR(evidence.readings()[0].value.standard_uncertainty(), 300.0 / sqrt3, 1e-9);
}

TEST(Evidence, OverRangeMeansMoreThanTheRangeThatWasSetElseThanTheLargest) {
  std::vector<Reading> readings{resistance_reading("OL"), resistance_reading("OL")};
  readings[1].range = AnyQuantity(Dimension::resistance, 600e3);
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_EQ(evidence.readings()[0].shown, Shown::over_range);
  EXPECT_DOUBLE_EQ(evidence.readings()[0].range_full_scale, 60e6);
  EXPECT_DOUBLE_EQ(evidence.readings()[1].range_full_scale, 600e3);
}

TEST(Evidence, OverRangeWithAUnitMeansTheLargestRangeThatShowsIt) {
  const std::vector<Reading> readings{resistance_reading("OL kohm"), resistance_reading("OL Mohm")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_DOUBLE_EQ(evidence.readings()[0].range_full_scale, 600e3);
  EXPECT_DOUBLE_EQ(evidence.readings()[1].range_full_scale, 60e6);
}

TEST(Evidence, ReadingsOfOneLabelDoNotShareTheirErrors) {
  std::vector<Reading> readings{resistance_reading("11.0 kohm"), resistance_reading("33.1 kohm")};
  for (Reading& reading : readings) reading.label = "a";
  readings[0].conditions.push_back({"part_temperature", parse_stated_value("23C ± 1K", Dimension::temperature), ""});
  readings[1].conditions.push_back({"part_temperature", parse_stated_value("0C ± 1K", Dimension::temperature), ""});
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_EQ(covariance(*evidence.readings()[0].condition(0), *evidence.readings()[1].condition(0)), 0.0);
}

std::string refusal_of(const std::vector<Reading>& readings, Meter meter) {
  try {
    const Evidence evidence(test_descriptor(), readings, MeterSet({std::move(meter)}));
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

TEST(Evidence, RefusesWhatCannotBeRead) {
  Reading unknown = resistance_reading("11.0 kohm");
  unknown.measurand = "colour";
  EXPECT_EQ(refusal_of({unknown}, basic_meter("0 ohm")), "reading 1: a test-part has no measurand \"colour\"");

  Reading other_meter = resistance_reading("11.0 kohm");
  other_meter.meter = "mine";
  EXPECT_EQ(refusal_of({other_meter}, basic_meter("0 ohm")), "no meter is called \"mine\"; known meters: basic");

  Meter low_impedance = basic_meter("0 ohm");
  low_impedance.low_impedance = true;
  EXPECT_EQ(
      refusal_of({resistance_reading("11.0 kohm")}, low_impedance),
      "reading 1: the meter \"basic\" is in its low-impedance mode, which reads no resistance; choose its ohms mode");

  EXPECT_EQ(
      refusal_of({resistance_reading("99 Mohm")}, basic_meter("0 ohm")),
      "reading 1: the meter \"basic\" shows a resistance up to 60.00 Mohm, not 99.00 Mohm; name the meter that read it "
      "(--meter), or write what it showed (OL)");

  Reading past_its_range = resistance_reading("11.0 kohm");
  past_its_range.range = AnyQuantity(Dimension::resistance, 6e3);
  EXPECT_EQ(
      refusal_of({past_its_range}, basic_meter("0 ohm")),
      "reading 1: 11000 ohm cannot be shown on a range of 6000 ohm; name the range that was set, or write what the "
      "meter showed (OL)");

  Reading no_such_range = resistance_reading("OL");
  no_such_range.range = AnyQuantity(Dimension::resistance, 1e11);
  EXPECT_EQ(refusal_of({no_such_range}, basic_meter("0 ohm")),
            "reading 1: the meter \"basic\" has no range of 100.0 Gohm; its largest is 60.00 Mohm");
  EXPECT_EQ(
      refusal_of({{.measurand = "speed", .observed = parse_observed("1550 rpm", Dimension::rotational_speed)}},
                 basic_meter("0 ohm")),
      "reading 1: the meter \"basic\" does not say how well it reads a rotational speed; name the instrument that "
      "read it (--meter), or write the value with its uncertainty, such as \"1550 rpm ± …\"");

  Reading no_condition = resistance_reading("11.0 kohm");
  no_condition.conditions.push_back({"weather", parse_stated_value("23C", Dimension::temperature), ""});
  EXPECT_EQ(refusal_of({no_condition}, basic_meter("0 ohm")), "reading 1: a test-part knows no condition \"weather\"");
}

/// The kind of the framework's tests with insulation that a tester reads.
const Descriptor& with_insulation() {
  static const Descriptor descriptor = [] {
    Descriptor d = test_descriptor();
    d.measurands.push_back({"insulation", "Insulation", Dimension::resistance, "Mohm", false, false});
    d.conditions.push_back({std::string_view(test_voltage_condition),
                            "volts of the tester",
                            "test",
                            Dimension::voltage,
                            "V",
                            0.0,
                            "",
                            {"insulation"}});
    return d;
  }();
  return descriptor;
}

Reading insulation_reading(std::string_view text, bool with_volts) {
  ObservedOptions options;
  options.names_range_end = true;
  Reading reading{.measurand = "insulation", .observed = parse_observed(text, Dimension::resistance, options)};
  if (with_volts)
    reading.conditions.push_back(
        {std::string(test_voltage_condition), parse_stated_value("500 V", Dimension::voltage), ""});
  return reading;
}

// EN 50699, EN 50678: 500 V; testers for 230 V and 400 V give 1000 V at most (common practice, no source).
TEST(Evidence, RefusesMoreVoltsThanAnyTestHas) {
  const auto with = [](std::string_view volts) {
    Reading reading = insulation_reading("20 Mohm", false);
    reading.conditions.push_back(
        {std::string(test_voltage_condition), parse_stated_value(volts, Dimension::voltage), ""});
    return std::vector<Reading>{reading};
  };
  const MeterSet meters({basic_meter("0 ohm")});
  EXPECT_NO_THROW(Evidence(with_insulation(), with("1000 V"), meters));
  for (const std::string_view volts : {"1001 V", "5000 V", "12 kV"}) {
    try {
      const Evidence evidence(with_insulation(), with(volts), meters);
      FAIL() << volts;
    } catch (const InputError& error) {
      EXPECT_NE(std::string(error.what()).find("500 V is the test"), std::string::npos) << error.what();
    }
  }
}

/// An ohmmeter that is a tester of insulation as well: 3 % + 5 counts of 0.1 Mohm up to 400 Mohm.
Meter with_tester() {
  Meter meter = basic_meter("0.2 ohm +- 0.05 ohm");
  const auto ohms = [](double value) { return AnyQuantity(Dimension::resistance, value); };
  meter.functions.push_back({Dimension::resistance, {{ohms(400e6), 3.0, 5.0, ohms(0.1e6)}}, false, true});
  return meter;
}

TEST(Evidence, ReadsATestersMegohmsWithItsOwnFunctionAndWithoutLeads) {
  const std::vector<Reading> readings{insulation_reading("200 Mohm", true), insulation_reading("> 200 Mohm", true),
                                      insulation_reading("OL", true), insulation_reading("20 Mohm", false)};
  const Evidence evidence(with_insulation(), readings, MeterSet({with_tester()}));
  // own arithmetic: 3 % of 200 Mohm + 5 counts of 0.1 Mohm
  EXPECT_NEAR(evidence.readings()[0].meter_half_width, 6.5e6, 1.0);
  EXPECT_EQ(evidence.readings()[0].value.value(), 200e6);
  EXPECT_EQ(evidence.readings()[1].range_full_scale, 200e6);
  EXPECT_EQ(evidence.readings()[2].range_full_scale, 400e6);
  // own arithmetic: the ohms' 0.9 % of 20 Mohm + 3 counts of 10 kohm
  EXPECT_NEAR(evidence.readings()[3].meter_half_width, 0.21e6, 1.0);
  EXPECT_EQ(evidence.readings()[3].lead_resistance, 0.2);
}

TEST(Evidence, OfMegohmsPastAnOhmmeterAsksForTheVoltsOfATester) {
  const Reading reading = insulation_reading("200 Mohm", false);
  try {
    const Evidence evidence(with_insulation(), {&reading, 1}, MeterSet({basic_meter("0 ohm")}));
    FAIL() << "accepted";
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(),
                 "reading 1: the meter \"basic\" shows a resistance up to 60.00 Mohm, not 200.0 Mohm; if a tester of "
                 "insulation read it, say its volts (--test 500V); if an ohmmeter did, write OL");
  }
}

TEST(Evidence, TakesOffTheLeadsThatWereSaidWithTheReading) {
  Reading stated = resistance_reading("0.5 ohm");
  stated.leads = parse_stated_value("0.3 ohm", Dimension::resistance);
  Reading zeroed = resistance_reading("0.5 ohm");
  zeroed.leads = parse_stated_value("0 ohm", Dimension::resistance);
  Reading sure = resistance_reading("0.5 ohm");
  sure.leads = parse_stated_value("0.3 ohm +- 0.01 ohm", Dimension::resistance);
  const std::vector<Reading> readings{stated, zeroed, sure};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0.2 ohm +- 0.05 ohm")}));
  EXPECT_NEAR(evidence.readings()[0].value.value(), 0.2, 1e-12);
  EXPECT_EQ(evidence.readings()[0].lead_half_width, 0.05);
  EXPECT_EQ(evidence.readings()[1].value.value(), 0.5);
  EXPECT_EQ(evidence.readings()[1].lead_half_width, 0.05);
  EXPECT_EQ(evidence.readings()[2].lead_half_width, 0.01);
}

TEST(Evidence, RefusesAnUncertaintyThatNoProbabilityCanBeTakenFrom) {
  EXPECT_EQ(refusal_of({resistance_reading("11.0 kohm ± 1e305 ohm")}, basic_meter("0 ohm")),
            "reading 1: ± 1e+305 ohm is no uncertainty that can be judged by; state one from 0 to 1e+15 ohm");
  EXPECT_EQ(refusal_of({resistance_reading("11.0 kohm ± 1e15 ohm")}, basic_meter("0 ohm")), "accepted");

  Reading at = resistance_reading("11.0 kohm");
  at.conditions.push_back({"part_temperature", parse_stated_value("23 degC ± 1e200 K", Dimension::temperature), ""});
  EXPECT_EQ(
      refusal_of({at}, basic_meter("0 ohm")),
      "reading 1: part_temperature ± 1e+200 K is no uncertainty that can be judged by; state one from 0 to 1e+15 K");

  EXPECT_EQ(refusal_of({resistance_reading("11.0 kohm")}, basic_meter("0.3 ohm ± 1e100 ohm")),
            "reading 1: the test leads' ± 1e+100 ohm is no uncertainty that can be judged by; "
            "state one from 0 to 1e+15 ohm");
  EXPECT_EQ(refusal_of({resistance_reading("11.0 kohm")}, basic_meter("0 ohm", 1e100)),
            "reading 1: the meter's ± 1e+101 ohm is no uncertainty that can be judged by; state one from 0 to "
            "1e+15 ohm");

  Reading scattered = resistance_reading("11.0 kohm ± 1 ohm");
  scattered.repeats = {2e100};
  EXPECT_EQ(refusal_of({scattered}, basic_meter("0 ohm")),
            "reading 1: the repeats' ± 1e+100 ohm is no uncertainty that can be judged by; state one from 0 to 1e+15 "
            "ohm");
}

TEST(Evidence, CarriesTheStatesOfThePart) {
  Descriptor timer = test_descriptor();
  timer.states = {{"position", "position of its cam", {{"run", "in run"}, {"defrost", "in defrost"}}}};
  const auto state_of = [&](std::vector<NamedState> states) {
    Reading reading = resistance_reading("11.0 kohm");
    reading.states = std::move(states);
    return Evidence(timer, {&reading, 1}, MeterSet({basic_meter("0 ohm")})).readings().front().state(0);
  };
  EXPECT_EQ(state_of({}), std::nullopt);
  EXPECT_EQ(state_of({{"position", "defrost"}}), 1);
  const auto refused = [&](std::vector<NamedState> states) -> std::string {
    try {
      state_of(std::move(states));
    } catch (const InputError& error) {
      return error.what();
    }
    return "accepted";
  };
  EXPECT_EQ(refused({{"lever", "up"}}), "reading 1: a test-part has no state \"lever\"");
  EXPECT_EQ(refused({{"position", "up"}}), "reading 1: position cannot be \"up\"");
  EXPECT_EQ(refused({{"position", "run"}, {"position", "run"}}), "reading 1: position is stated twice");
}

TEST(Evidence, RefusesAConditionOfAnotherDimension) {
  Reading volts = resistance_reading("11.0 kohm");
  volts.conditions.push_back({"part_temperature", parse_stated_value("12 V", Dimension::voltage), ""});
  EXPECT_EQ(refusal_of({volts}, basic_meter("0 ohm")), "reading 1: part_temperature is a temperature, not a voltage");
}

Reading reading_at(std::string_view ohms, std::string_view temperature) {
  Reading reading = resistance_reading(ohms);
  reading.conditions.push_back({"part_temperature", parse_stated_value(temperature, Dimension::temperature), ""});
  return reading;
}

/// The sources of a reading's value and of its first condition.
std::vector<SourceIndex> sources_of(const PreparedReading& reading) {
  std::vector<SourceIndex> sources;
  for (const Term& term : reading.value.terms()) sources.push_back(term.source);
  for (const Term& term : reading.condition(0)->terms()) sources.push_back(term.source);
  return sources;
}

TEST(Evidence, TheSameDigitsAgainShareEveryError) {
  const std::vector<Reading> readings{reading_at("11.0 kohm", "23 degC ± 1 K"),
                                      reading_at("11.0 kohm", "23 degC ± 1 K")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_EQ(sources_of(evidence.readings()[0]), sources_of(evidence.readings()[1]));
}

TEST(Evidence, OtherDigitsKeepTheirOwnCountsAndShareTheThermometer) {
  const std::vector<Reading> readings{reading_at("11.0 kohm", "23 degC ± 1 K"),
                                      reading_at("11.1 kohm", "23 degC ± 1 K")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  const std::vector<SourceIndex> first = sources_of(evidence.readings()[0]);
  const std::vector<SourceIndex> second = sources_of(evidence.readings()[1]);
  ASSERT_EQ(first.size(), 3U);  // gain, counts, thermometer
  EXPECT_EQ(first[0], second[0]);
  EXPECT_NE(first[1], second[1]);
  EXPECT_EQ(first[2], second[2]);
}

TEST(Evidence, WetAndDryAtOneTemperatureAreWrongEachForItself) {
  std::vector<Reading> readings{reading_at("9.2 kohm", "20 degC ± 1 K"), reading_at("12.4 kohm", "20 degC ± 1 K")};
  readings[0].moisture = Moisture::wet;
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NE(sources_of(evidence.readings()[0])[2], sources_of(evidence.readings()[1])[2]);
}

TEST(Evidence, TwoTemperaturesAreWrongEachForItself) {
  const std::vector<Reading> readings{reading_at("33.1 kohm", "0 degC ± 1 K"),
                                      reading_at("11.0 kohm", "23 degC ± 1 K")};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  EXPECT_NE(sources_of(evidence.readings()[0])[2], sources_of(evidence.readings()[1])[2]);
}

TEST(Evidence, RefusesDigitsFinerThanTheRangeShows) {
  Reading fine = resistance_reading("32 ohm");
  fine.range = AnyQuantity(Dimension::resistance, 600e3);
  EXPECT_EQ(refusal_of({fine}, basic_meter("0 ohm")),
            "reading 1: 32 ohm cannot be shown on a range of 600.0 kohm, whose last digit is 100.0 ohm; name the range "
            "that was "
            "set");
}

TEST(Evidence, ANamedErrorIsNotThatOfTheReadingWithThatLabel) {
  Reading own = resistance_reading("11.0 kohm");
  own.conditions.push_back({"part_temperature", parse_stated_value("23 degC ± 1 K", Dimension::temperature), ""});
  Reading named = own;
  named.conditions[0].error_source = "reading 1";
  const std::vector<Reading> readings{own, named};
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  const auto source_of = [&](std::size_t i) { return evidence.readings()[i].condition(0)->terms().front().source; };
  EXPECT_NE(source_of(0), source_of(1));
}

/// Readings of different digits, some twice, each of some with a thermometer of its own name: past what is looked
/// through one by one.
std::vector<Reading> many_readings(int count) {
  std::vector<Reading> readings;
  for (int i = 0; i < count; ++i) {
    Reading reading = resistance_reading(std::to_string(5 + i % 15) + ".0 kohm");
    const std::string degrees = std::to_string(i % 12) + " degC ± 0.2 K";
    const std::string name = i % 2 == 0 ? "" : "thermometer " + std::to_string(i % 13);
    reading.conditions.push_back({"part_temperature", parse_stated_value(degrees, Dimension::temperature), name});
    readings.push_back(std::move(reading));
  }
  return readings;
}

void expect_same(const Evidence& one, const Evidence& other) {
  ASSERT_EQ(one.readings().size(), other.readings().size());
  ASSERT_EQ(one.sources().size(), other.sources().size());
  for (std::size_t i = 0; i < one.sources().size(); ++i) {
    EXPECT_EQ(one.sources()[i].id, other.sources()[i].id);
    EXPECT_EQ(one.sources()[i].of, other.sources()[i].of);
    EXPECT_EQ(one.sources()[i].shape, other.sources()[i].shape);
    EXPECT_EQ(one.sources()[i].degrees_of_freedom, other.sources()[i].degrees_of_freedom);
  }
  for (std::size_t i = 0; i < one.readings().size(); ++i) {
    const PreparedReading& a = one.readings()[i];
    const PreparedReading& b = other.readings()[i];
    EXPECT_EQ(one.label(a), other.label(b));
    EXPECT_EQ(a.value.value(), b.value.value());
    ASSERT_EQ(a.value.terms().size(), b.value.terms().size());
    for (std::size_t t = 0; t < a.value.terms().size(); ++t) {
      EXPECT_EQ(a.value.terms()[t].source, b.value.terms()[t].source);
      EXPECT_EQ(a.value.terms()[t].standard_uncertainty, b.value.terms()[t].standard_uncertainty);
    }
    ASSERT_EQ(a.conditions.size(), b.conditions.size());
  }
}

TEST(Evidence, MadeAgainIsAsIfItWereMadeAnew) {
  const MeterSet meters({basic_meter("0.3 ohm ± 0.05 ohm")});
  std::vector<Reading> repeated = many_readings(3);
  repeated[1].repeats = {5100.0, 5300.0, 5200.0};
  Evidence again(test_descriptor(), repeated, meters);
  for (const int count : {60, 1, 20, 2}) {
    const std::vector<Reading> readings = many_readings(count);
    prepare_again(again, test_descriptor(), readings, meters);
    expect_same(again, Evidence(test_descriptor(), readings, meters));
  }
  std::vector<Reading> wrong = many_readings(2);
  wrong[1].measurand = "none";
  EXPECT_THROW(prepare_again(again, test_descriptor(), wrong, meters), InputError);
  prepare_again(again, test_descriptor(), repeated, meters);
  expect_same(again, Evidence(test_descriptor(), repeated, meters));
}

// Fifteen values and twelve temperatures by construction, two of those of one name and value being one error.
TEST(Evidence, SharesErrorsAmongManyReadings) {
  const std::vector<Reading> readings = many_readings(60);
  const Evidence evidence(test_descriptor(), readings, MeterSet({basic_meter("0 ohm")}));
  std::size_t counts = 0;
  std::size_t gains = 0;
  for (const ErrorSource& source : evidence.sources()) {
    if (source.id == "meter-counts") ++counts;
    if (source.id == "meter-gain") ++gains;
  }
  EXPECT_EQ(counts, 15U);
  EXPECT_EQ(gains, 1U);
}

}  // namespace
}  // namespace ohmwright
