// Insulation in a kind file: judged as that of every kind, and never proved by an ohmmeter.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bad_file.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;

constexpr const char* to_frame =
    R"({"id": "to_frame", "title": "To the frame", "dimension": "resistance", "unit": "Mohm"},)";
constexpr const char* volts =
    R"({"id": "test_voltage", "option": "test", "title": "volts of the tester", "dimension": "voltage", "unit": "V", "doubt": {"half_width": "0 V", "source": "made up"}},)";
constexpr const char* rule =
    R"x({"id": "insulation", "title": "Insulation", "measurand": "to_frame", "source": "EN 50699 (from memory)", "insulation": {"least": "1 Mohm"}, "texts": {}},)x";
constexpr const char* procedure =
    R"({"id": "tester", "title": "Tester", "measurand": "to_frame", "minutes": 1, "steps": ["Read."], "cautions": ["disconnect-power", "prove-dead", "insulation-test"]},)";

/// The coil's file with insulation; what a test spoils stands in place of a row.
std::vector<Change> insulated(const std::string& to_frame_row = to_frame, const std::string& volts_row = volts,
                              const std::string& rule_row = rule, const std::string& procedure_row = procedure) {
  const std::string current = R"({"id": "current", "title": "Current", "dimension": "current", "unit": "A"})";
  const std::string line = R"({"id": "line_voltage", "option")";
  const std::string amps = R"({"id": "amps")";
  const std::string winding = R"({
      "id": "winding")";
  return {{current, to_frame_row + current},
          {line, volts_row + line},
          {winding, rule_row + winding},
          {amps, procedure_row + amps}};
}

Judged of(const Kind& kind, const std::string& value, const std::string& test_volts, bool winding_read = false,
          Supply supply = Supply::proved_dead) {
  std::vector<Typed> typed;
  if (winding_read) typed.push_back({.value = "82 ohm +- 0.1 ohm", .at = "25 degC +- 0.1 K"});
  std::vector<Reading> readings = readings_of(kind, typed);
  if (!value.empty()) {
    std::vector<Reading> one = readings_of(kind, {{.value = value, .measurand = "to_frame", .supply = supply}});
    if (!test_volts.empty())
      one[0].conditions.push_back({"test_voltage", parse_stated_value(test_volts, Dimension::voltage), "", false});
    readings.push_back(one[0]);
  }
  Meter meter = meters().named("");
  MeterFunction tester{Dimension::resistance, {}, false, true};
  tester.ranges.push_back({AnyQuantity(Dimension::resistance, 2e8), 3.0, 5.0, AnyQuantity(Dimension::resistance, 1e4)});
  meter.functions.push_back(tester);
  const auto part = part_of(kind, R"({"nominal": "82 ohm"})");
  const Evidence evidence(kind.descriptor(), readings, MeterSet({meter}));
  return {judge(*part, kind.descriptor(), evidence, {0.95}), &kind.descriptor()};
}

// EN 50699, EN 50678 (from memory): 500 V direct, class I at least 1 Mohm; an ohmmeter has a few volts.
TEST(InsulationRule, IsProvedByATesterAlone) {
  const auto kind = coil(insulated());
  EXPECT_EQ(of(*kind, "OL", "500 V").outcome("insulation"), Outcome::within_limits);
  EXPECT_EQ(of(*kind, "50 Mohm", "500 V").outcome("insulation"), Outcome::within_limits);
  EXPECT_EQ(of(*kind, "0.2 Mohm", "500 V").outcome("insulation"), Outcome::out_of_limits);
  EXPECT_EQ(of(*kind, "OL", "").text("insulation"), "ohmmeter-past-range");
  EXPECT_EQ(of(*kind, "5 Mohm", "").text("insulation"), "ohmmeter-is-no-tester");
  EXPECT_EQ(of(*kind, "OL", "100 V").text("insulation"), "few-volts-past-range");
  EXPECT_EQ(of(*kind, "9 kohm", "500 V").text("insulation"), "touches-frame");
  for (const char* test_volts : {"", "100 V"}) {
    EXPECT_EQ(of(*kind, "OL", test_volts).outcome("insulation"), Outcome::undecided);
    EXPECT_THAT(of(*kind, "OL", test_volts).advice(), ElementsAre("prove-insulation"));
  }
}

TEST(InsulationRule, IsStillToReadWhereThePartIsGood) {
  const auto kind = coil(insulated());
  const Judged good = of(*kind, "", "", true);
  EXPECT_EQ(good.verdict.outcome, Outcome::within_limits);
  EXPECT_EQ(good.outcome("insulation"), Outcome::undecided);
  EXPECT_EQ(good.text("insulation"), "still-to-read");
  EXPECT_EQ(of(*kind, "50 Mohm", "500 V", false, Supply::live).text("insulation"), "only-live");
}

TEST(InsulationRule, LeavesOhmsToTheMeter) {
  const auto kind = coil(insulated());
  const auto& conditions = kind->descriptor().conditions;
  EXPECT_THAT(conditions[index_of(conditions, "test_voltage")].of, ElementsAre("to_frame"));
  EXPECT_EQ(kind->descriptor().advice[index_of(kind->descriptor().advice, "prove-insulation")].procedure, "tester");
}

class WrongInsulation : public ::testing::TestWithParam<BadFile> {};

TEST_P(WrongInsulation, IsToldWithLineAndPointer) { EXPECT_EQ(refusals_of(GetParam()), GetParam().reasons); }

std::string changed(std::string row, const std::string& from, const std::string& to) {
  return row.replace(row.find(from), from.size(), to);
}

const std::vector<BadFile> bad_files = {
    {"WithoutATester",
     insulated(to_frame, ""),
     {R"(line 24, /rules/0/insulation: insulation needs the condition "test_voltage", a voltage with the option "test": only a tester's volts prove it)"}},
    {"OfAnotherName",
     insulated(to_frame, volts, changed(rule, R"("id": "insulation")", R"("id": "frame")")),
     {R"(line 24, /rules/0/id: a rule on insulation is called "insulation": by that name a verdict tells what is not yet proved safe to energise)"}},
    {"AsAContact",
     insulated(to_frame, volts,
               changed(changed(rule, R"("insulation": {"least": "1 Mohm"}, "texts": {})",
                               R"("contact": {"must_be": "open"}, "texts": {"open-right": "o", "closed-wrong": "c"})"),
                       R"("measurand": "to_frame")", R"("measurand": "contact")")),
     {R"(line 24, /rules/0/contact: a contact that is open proves no insulation; write "insulation": {"least": "1 Mohm"})"}},
    {"WithoutItsCaution",
     insulated(to_frame, volts, rule, changed(procedure, R"(, "insulation-test")", "")),
     {R"(line 59, /procedures/2/cautions: the caution "insulation-test" is missing: insulation is read with hundreds of volts)"}},
    {"VoltsOfTheOhms",
     insulated(to_frame, changed(volts, R"("doubt")", R"("of": ["to_frame", "resistance"], "doubt")")),
     {R"(line 14, /conditions/1/of/1: the volts of an insulation tester are none of "resistance", which a meter reads)"}},
    {"ToleranceOfMoreThanAll",
     {{R"("7 %")", R"("150 %")"}},
     {R"(line 26, /rules/0/limits/tolerance: a tolerance is 100 % of the nominal value at most, such as "10 %"; where a good part may read several times as much, write "lower" and "upper")"}},
};

INSTANTIATE_TEST_SUITE_P(Insulation, WrongInsulation, ::testing::ValuesIn(bad_files),
                         [](const auto& bad) { return bad.param.name; });

TEST(Ratings, WithAToleranceOfMoreThanAllAreRefused) {
  const auto kind = coil();
  try {
    part_of(*kind, R"({"nominal": "82 ohm", "tolerance": "150 %"})");
    FAIL();
  } catch (const std::runtime_error& refused) {
    EXPECT_STREQ(
        refused.what(),
        ": rule \"winding\": a tolerance is 100 % of the nominal value at most, such as \"10 %\"; where a good "
        "part may read several times as much, write \"lower\" and \"upper\"");
  }
}

}  // namespace
}  // namespace ohmwright::kind_file
