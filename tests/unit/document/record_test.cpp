#include <cmath>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/verdict_record.hpp>
#include <ohmwright/quantity/error.hpp>

#include "temporary_folder.hpp"
#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::refusal_of;
using testing::test_descriptor;

constexpr double infinity = std::numeric_limits<double>::infinity();

std::vector<Reading> many_readings() {
  Reading full{.label = "reading \"1\"\x1b[31m\nnext",
               .measurand = "resistance",
               .observed = parse_observed("11.0 kohm +- 0.1 kohm", Dimension::resistance)};
  full.repeats = {0.1 + 0.2, 1.0 / 3.0, -0.0};
  full.conditions = {
      {"part_temperature", parse_stated_value("73.4 degF +- 1 degF", Dimension::temperature), "ice bath", false},
      {"line_voltage", parse_stated_value("120 V", Dimension::voltage), "", true}};
  full.connection = Connection::in_circuit;
  full.moisture = Moisture::dry;
  full.states = {{"position", "defrost"}};
  full.supply = Supply::proved_dead;
  full.meter = "basic";
  full.range = AnyQuantity(Dimension::resistance, 60000.0);
  full.leads = parse_stated_value("0.3 ohm +- 0.05 ohm", Dimension::resistance);
  Reading over = full;
  over.observed = OverRange{Unit::named("Mohm", Dimension::resistance)};
  over.range.reset();
  Reading past = over;
  past.observed = OverRange{std::nullopt, AnyQuantity(Dimension::resistance, 200e6)};
  Reading bare{.measurand = "resistance", .observed = OverRange{}};
  Reading contact{.measurand = "resistance", .observed = ContactState::closed};
  Reading share{.measurand = "resistance", .observed = parse_observed("0.5", Dimension::ratio)};
  Reading difference{.measurand = "resistance", .observed = parse_observed("5 K", Dimension::temperature_difference)};
  StatedValueOptions bare_number;
  bare_number.default_unit = Unit::named("kohm", Dimension::resistance);
  Reading assumed{.measurand = "resistance", .observed = parse_stated_value("5", Dimension::resistance, bare_number)};
  return {full, over, past, bare, contact, share, difference, assumed};
}

TEST(ReadingRecord, RoundTripGivesEqualReadings) {
  const std::vector<Reading> readings = many_readings();
  const std::vector<Reading> back = readings_from_record(readings_record(readings));
  ASSERT_EQ(back.size(), readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) EXPECT_TRUE(equal(readings[i], back[i])) << "reading " << i;
  EXPECT_EQ(readings_record(back), readings_record(readings));
}

TEST(ReadingRecord, WritesSiNumbersWithTheirUnit) {
  const Reading reading{.measurand = "resistance", .observed = parse_observed("11.0 kohm", Dimension::resistance)};
  EXPECT_EQ(
      readings_record({&reading, 1}),
      R"({"readings":[{"label":"","measurand":"resistance","observed":{"value":11000.0,"unit":"ohm","typed_unit":"kohm"},)"
      R"("conditions":[]}]})");
}

TEST(ReadingRecord, EqualityNoticesEveryField) {
  const Reading first = many_readings()[0];
  const auto changed = [&first](auto change) {
    Reading other = first;
    change(other);
    return !equal(first, other);
  };
  EXPECT_TRUE(changed([](Reading& r) { r.label = "x"; }));
  EXPECT_TRUE(changed([](Reading& r) { r.measurand = "x"; }));
  EXPECT_TRUE(changed([](Reading& r) { r.observed = OverRange{}; }));
  EXPECT_TRUE(changed([](Reading& r) { std::get<StatedValue>(r.observed).half_width = 0.1; }));
  EXPECT_TRUE(changed([](Reading& r) { r.repeats[2] = 0.0; }));  // −0 is not 0
  EXPECT_TRUE(changed([](Reading& r) { r.repeats.pop_back(); }));
  EXPECT_TRUE(changed([](Reading& r) { r.conditions[0].error_source = ""; }));
  EXPECT_TRUE(changed([](Reading& r) { r.conditions[1].uncertainty_assumed = false; }));
  EXPECT_TRUE(changed([](Reading& r) { r.connection = Connection::unstated; }));
  EXPECT_TRUE(changed([](Reading& r) { r.moisture = Moisture::wet; }));
  EXPECT_TRUE(changed([](Reading& r) { r.states[0].value = "run"; }));
  EXPECT_TRUE(changed([](Reading& r) { r.supply = Supply::live; }));
  EXPECT_TRUE(changed([](Reading& r) { r.meter = ""; }));
  EXPECT_TRUE(changed([](Reading& r) { r.range.reset(); }));
  EXPECT_TRUE(changed([](Reading& r) { r.leads.reset(); }));
  EXPECT_TRUE(changed([](Reading& r) { r.leads->half_width.reset(); }));
}

TEST(ReadingRecord, RefusesWhatIsBroken) {
  const auto refusal = [](const char* text) { return refusal_of([text] { readings_from_record(text); }); };
  EXPECT_EQ(refusal(R"({"readings": 5})"), "readings record:1: /readings: found the number 5; expected a list");
  EXPECT_EQ(refusal("[]"), "readings record:1: the field \"readings\" is missing");
  EXPECT_EQ(
      refusal(
          R"({"readings": [{"label": "", "measurand": "m", "observed": {"value": 1, "unit": "foot", "typed_unit": ""}, "conditions": []}]})"),
      "readings record:1: /readings/0/observed/unit: found \"foot\"; expected an SI unit");
  const Reading broken{.label = "\xff", .measurand = "resistance", .observed = OverRange{}};
  EXPECT_EQ(refusal_of([&] {
              readings_record({&broken, 1});
            }),
            "a text among the readings is not UTF-8; type it again in a UTF-8 terminal");
}

std::vector<ErrorSource> sources() {
  return {{"model", "", Shape::rectangular, infinity},
          {"meter-gain", "basic, resistance", Shape::normal, 4.2},
          {"scatter", "reading 1", Shape::student_t, 2.0}};
}

Verdict full_verdict() {
  Verdict verdict;
  verdict.outcome = Outcome::undecided;
  verdict.probability_within = 0.1 + 0.2;
  Finding finding;
  finding.rule = 0;
  finding.outcome = Outcome::within_limits;
  finding.arguments.push_back({"value", AnyQuantity(Dimension::temperature_difference, 1.0 / 3.0)});
  finding.arguments.push_back({"share", std::nan("")});
  finding.arguments.push_back({"which", std::string("reading \"1\"\n")});
  finding.measured = AnyQuantity(Dimension::resistance, 10950.000000000002);
  finding.measured_uncertainty = 62.1;
  finding.limits = {AnyQuantity(Dimension::resistance, 9851.2), std::nullopt};
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = 5e-324;
  Estimate judged(-0.0);
  judged.add_term(2, 1e-3);
  judged.add_term(1, -2e-3);
  finding.judged = judged;
  finding.judged_lower = -infinity;
  finding.judged_upper = 9.3;
  verdict.findings.push_back(finding);
  Finding silent;
  silent.rule = 2;
  silent.meaning = ProbabilityMeaning::observed_if_within;
  verdict.findings.push_back(silent);
  verdict.budget = {{1, 0.8}, {2, 0.2}};
  Advice advice;
  advice.arguments.push_back({"at", AnyQuantity(Dimension::temperature, 273.15)});
  advice.probability_decided = 0.97;
  verdict.advice.push_back(advice);
  return verdict;
}

TEST(VerdictRecord, RoundTripGivesAnEqualVerdict) {
  const Verdict verdict = full_verdict();
  const std::string record = verdict_record(verdict, test_descriptor(), sources());
  const RecordedVerdict back = verdict_from_record(record, test_descriptor());
  EXPECT_TRUE(equal(back.verdict, verdict));
  EXPECT_EQ(verdict_record(back.verdict, test_descriptor(), back.sources), record);
  ASSERT_EQ(back.sources.size(), 3U);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_TRUE(equal(back.sources[i], sources()[i]));
  EXPECT_TRUE(
      equal(verdict_from_record(verdict_record({}, test_descriptor(), {}), test_descriptor()).verdict, Verdict()));
}

TEST(VerdictRecord, ACopyKeepsTheNamesOfItsArguments) {
  RecordedVerdict copy;
  {
    const RecordedVerdict back =
        verdict_from_record(verdict_record(full_verdict(), test_descriptor(), sources()), test_descriptor());
    copy = back;
  }
  EXPECT_EQ(copy.verdict.findings[0].arguments[2].name, "which");
}

TEST(VerdictRecord, EqualityNoticesEveryField) {
  const Verdict first = full_verdict();
  const auto changed = [&first](auto change) {
    Verdict other = first;
    change(other);
    return !equal(first, other);
  };
  EXPECT_TRUE(changed([](Verdict& v) { v.outcome = Outcome::within_limits; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.probability_within = 0.3; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.probability_within.reset(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings.pop_back(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].rule = 1; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].outcome = Outcome::silent; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].text = 1; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].arguments[0].name = "x"; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].arguments[1].value = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].arguments[2].value = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].measured.reset(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].measured_uncertainty = 62.2; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].limits.lower.reset(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].limits.upper = AnyQuantity(Dimension::resistance, 1.0); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].meaning = ProbabilityMeaning::none; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].probability = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].judged->shift(1.0); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].judged->add_term(0, 1.0); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].judged.reset(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].judged_lower = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.findings[0].judged_upper = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.budget[0].source = 0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.budget[0].share = 0.0; }));
  EXPECT_TRUE(changed([](Verdict& v) { v.advice[0].arguments.clear(); }));
  EXPECT_TRUE(changed([](Verdict& v) { v.advice[0].probability_decided.reset(); }));
  EXPECT_FALSE(changed([](Verdict&) {}));
}

TEST(VerdictRecord, RefusesARecordThatAFailingChildCutOrAnotherKindWrote) {
  const std::string record = verdict_record(full_verdict(), test_descriptor(), sources());
  for (std::size_t length = 0; length < record.size(); ++length)
    EXPECT_THROW(verdict_from_record(record.substr(0, length), test_descriptor()), DocumentError) << length;
  Descriptor other = test_descriptor();
  other.rules[0].id = "renamed";
  EXPECT_EQ(refusal_of([&] { verdict_from_record(record, other); }),
            "verdict record:1: /findings/0/rule: found \"first\"; expected an id that the kind test-part has");
  std::string wrong_source = record;
  wrong_source.replace(wrong_source.find("\"source\":2"), 10, "\"source\":9");
  EXPECT_THAT(refusal_of([&] { verdict_from_record(wrong_source, test_descriptor()); }),
              ::testing::HasSubstr("found the number 9; expected a whole number from 0 to 2"));
}

}  // namespace
}  // namespace ohmwright
