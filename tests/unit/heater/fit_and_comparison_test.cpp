#include <algorithm>
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "heater_fixture.hpp"
#include "part/cold_fit.hpp"
#include "part/comparison.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;

MeasuredRow row(double ohms, double celsius) {
  MeasuredRow made{Temperature::from_celsius(celsius), 0.0,
                   StatedValue{AnyQuantity(Dimension::resistance, ohms), {}, Unit::si(Dimension::resistance)}};
  made.meter_standard_uncertainty = 0.005 * ohms;
  return made;
}

std::vector<std::string> remarks_of(const Fitting& fitting) {
  std::vector<std::string> ids;
  for (const RowRemark& remark : fitting.remarks) ids.emplace_back(remark.text.id);
  return ids;
}

TEST(ColdFit, IsTheMeanAndItsRatingsAreRead) {
  const std::vector<MeasuredRow> rows{row(32.1, 20), row(31.9, 21), row(32.0, 22)};
  const Fitting fitting = fit_cold_resistance({resistance, part_temperature, rows});
  ASSERT_EQ(fitting.forms.size(), 1U);
  EXPECT_NEAR(fitting.forms[0].figures[0].value, 32.0, 1e-9);
  // Rows of one meter cannot be surer than it: sqrt((0.1/sqrt 3)^2 + (0.5 % of 32.1)^2), GUM 4.2.3 and 5.1.2.
  EXPECT_NEAR(fitting.forms[0].figures[0].standard_uncertainty, 0.170568, 1e-6);
  std::vector<Problem> problems;
  ASSERT_TRUE(read_ratings(fitting.forms[0].ratings, problems));
  EXPECT_EQ(read_ratings(fitting.forms[0].ratings, problems)->resistance->value(), 32.0);
  // What one part was measured to does not make its twins bad.
  EXPECT_NEAR(read_ratings(fitting.forms[0].ratings, problems)->resistance_tolerance, 0.1, 1e-9);
}

// Ohms without a temperature say little, and one row is no rows.
TEST(ColdFit, SaysWhereItsFigureHoldsAndWhatItCameFrom) {
  const std::vector<MeasuredRow> rows{row(32.0, 22)};
  const Fitting fitting = fit_cold_resistance({resistance, part_temperature, rows});
  ASSERT_EQ(fitting.forms.at(0).figures.size(), 2U);
  EXPECT_EQ(fitting.forms[0].figures[1].name, "reference_temperature");
  EXPECT_NEAR(fitting.forms[0].figures[1].value, 20.0, 1e-9);
  const ValueNode* figure = fitting.forms[0].ratings.find("resistance");
  ASSERT_NE(figure, nullptr);
  EXPECT_EQ(*figure->find("source")->text(), "fitted from one row of one part, cold");
}

TEST(ColdFit, TakesTheLeadsOff) {
  std::vector<MeasuredRow> rows{row(5.0, 20), row(5.0, 21)};
  for (MeasuredRow& one : rows) one.value_in_si = 4.8;
  const Fitting fitting = fit_cold_resistance({resistance, part_temperature, rows});
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 4.8, 1e-12);
}

/// Rows without a majority have no mean.
TEST(ColdFit, NeverFitsThroughRowsThatContradictEachOther) {
  const auto fitted = [](const std::vector<double>& ohms) {
    std::vector<MeasuredRow> rows;
    for (const double one : ohms) rows.push_back(row(one, 20));
    return fit_cold_resistance({resistance, part_temperature, rows});
  };
  EXPECT_THAT(remarks_of(fitted({32, 32'000})), ElementsAre("contradict-by-unit"));
  EXPECT_TRUE(fitted({32, 32'000}).forms.empty());
  EXPECT_THAT(remarks_of(fitted({32, 32, 32, 32'000, 32'000, 32'000})), ElementsAre("contradict-by-unit"));
  EXPECT_THAT(remarks_of(fitted({32, 32, 32, 32, 320, 320, 320, 320})), ElementsAre("contradict"));
  EXPECT_THAT(remarks_of(fitted({32, 40})), ElementsAre("contradict"));
  EXPECT_THAT(remarks_of(fitted({32, 32, 32'000})), ElementsAre("slipped"));
  EXPECT_TRUE(fitted({30, 32, 33.5, 34.9}).remarks.empty());  // within 10 % of their median, 32.75
}

// Limits of 10 % about a mean that is known to 12 % would pass and condemn by luck.
TEST(ColdFit, MakesNoRatingsOfADoubtfulMean) {
  std::vector<MeasuredRow> rows{row(4.2, 20)};
  rows[0].meter_standard_uncertainty = 0.25;
  const Fitting fitting = fit_cold_resistance({resistance, part_temperature, rows});
  EXPECT_THAT(remarks_of(fitting), ElementsAre("too-doubtful"));
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 4.2, 1e-12);
  EXPECT_EQ(fitting.forms.at(0).ratings.members(), nullptr);
}

TEST(ColdFit, LeavesOutWhatIsNoneAndSaysSo) {
  std::vector<MeasuredRow> rows{row(32.1, 20), row(31.9, 21), row(3.2, 22), row(36.0, 400), row(32.0, 20)};
  rows.push_back({Temperature::from_celsius(20), 0.0, OverRange{}});
  const Fitting fitting = fit_cold_resistance({resistance, part_temperature, rows});
  EXPECT_THAT(remarks_of(fitting), ElementsAre("stray", "not-cold", "no-value"));
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 32.0, 1e-9);
  EXPECT_THAT(remarks_of(fit_cold_resistance({resistance, part_temperature, {}})), ElementsAre("no-rows"));
  EXPECT_TRUE(fit_cold_resistance({power, line_voltage, rows}).forms.empty());
}

Outcome verdict(const std::string& original, const std::string& candidate) {
  const HeaterRatings a = ratings(original);
  const HeaterRatings b = ratings(candidate);
  Outcome worst = Outcome::within_limits;
  for (const EquivalenceFinding& finding : compare_heaters(&a, &b, {})) {
    if (finding.outcome == Outcome::out_of_limits) return Outcome::out_of_limits;
    if (finding.outcome == Outcome::undecided) worst = Outcome::undecided;
  }
  return worst;
}

TEST(Comparison, EqualOhmsAreNoEqualPart) {
  const std::string original =
      R"({"voltage": "120 V", "power": "450 W", "construction": "metal-sheath", "length": "0.5 m"})";
  EXPECT_EQ(verdict(original, original), Outcome::within_limits);
  EXPECT_EQ(
      verdict(original, R"({"voltage": "120 V", "power": "450 W", "construction": "glass-tube", "length": "0.5 m"})"),
      Outcome::out_of_limits);
  EXPECT_EQ(
      verdict(original, R"({"voltage": "120 V", "power": "450 W", "construction": "metal-sheath", "length": "0.7 m"})"),
      Outcome::out_of_limits);
  EXPECT_EQ(verdict(original, R"({"voltage": "120 V", "power": "450 W", "construction": "metal-sheath"})"),
            Outcome::undecided);
  // 1653 W at 230 V has the same 32 ohm.
  EXPECT_EQ(verdict(original, R"({"voltage": "230 V", "power": "1653 W", "construction": "metal-sheath"})"),
            Outcome::out_of_limits);
  EXPECT_EQ(verdict(original, R"({"voltage": "120 V", "power": "600 W", "construction": "metal-sheath"})"),
            Outcome::out_of_limits);
  EXPECT_EQ(verdict(original, R"({"voltage": "120 V", "power": "300 W", "construction": "metal-sheath"})"),
            Outcome::out_of_limits);
  EXPECT_EQ(verdict(original, R"({"voltage": "120 V", "power": "450 W"})"), Outcome::undecided);
  // One that is earthed has less insulation than a place without an earth asks for; the other way about is no harm.
  const std::string earthed = R"({"voltage": "120 V", "power": "450 W", "construction": "foil", "earth_class": "I"})";
  const std::string double_insulated =
      R"({"voltage": "120 V", "power": "450 W", "construction": "foil", "earth_class": "II"})";
  EXPECT_EQ(verdict(double_insulated, earthed), Outcome::out_of_limits);
  EXPECT_EQ(verdict(earthed, double_insulated), Outcome::within_limits);
  EXPECT_EQ(compare_heaters(nullptr, nullptr, {}).at(0).text.id, "ratings-unknown");
}

TEST(Comparison, SaysThatLengthsWereNotCompared) {
  const HeaterRatings unstated = ratings(R"({"voltage": "120 V", "power": "450 W", "construction": "metal-sheath"})");
  const std::vector<EquivalenceFinding> findings = compare_heaters(&unstated, &unstated, {});
  EXPECT_TRUE(std::any_of(findings.begin(), findings.end(), [](const EquivalenceFinding& finding) {
    return finding.outcome == Outcome::silent && finding.text.id == "length-not-stated";
  }));
}

/// What is said of a class is enough to know its twin by.
TEST(Comparison, AClassStandsInForItself) {
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(OHMWRIGHT_HEATER_FOLDER "/ratings")) {
    const Document document = read_document(entry.path().string());
    std::vector<Problem> problems;
    const std::optional<HeaterRatings> ratings = read_ratings(*document.root.find("ratings"), problems);
    ASSERT_TRUE(ratings) << entry.path();
    bool any_alike = false;
    for (const EquivalenceFinding& finding : compare_heaters(&*ratings, &*ratings, {})) {
      EXPECT_NE(finding.outcome, Outcome::undecided) << entry.path() << ' ' << finding.text.id;
      EXPECT_NE(finding.outcome, Outcome::out_of_limits) << entry.path() << ' ' << finding.text.id;
      any_alike = any_alike || finding.outcome == Outcome::within_limits;
    }
    EXPECT_TRUE(any_alike) << entry.path();
    ++count;
  }
  EXPECT_GE(count, 6U);
}

}  // namespace
}  // namespace ohmwright::heater
