#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/schema.hpp>

#include "thermostat_fixture.hpp"
#include "thermostat_kind.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;

std::vector<MeasuredRow> rows_of(const std::vector<Step>& steps, double half_width = 0.0) {
  std::vector<MeasuredRow> rows;
  for (const Step& step : steps)
    rows.push_back({AnyQuantity(celsius(step.celsius)), half_width,
                    Observed(step.state == 'C' ? ContactState::closed : ContactState::open)});
  return rows;
}

Fitting fit(const std::vector<MeasuredRow>& rows) {
  const ThermostatKind kind;
  return kind.fit({contact_state, part_temperature, rows});
}

std::vector<std::string> remarks_of(const Fitting& fitting) {
  std::vector<std::string> ids;
  for (const RowRemark& remark : fitting.remarks) ids.emplace_back(remark.text.id);
  return ids;
}

const std::vector<Step> cycle{{'C', 11}, {'C', 12.2}, {'O', 13.4}, {'O', 0}, {'O', -4}, {'C', -5}};

TEST(TripFit, GivesBothTripPointsWithTheirUncertainty) {
  const Fitting fitting = fit(rows_of(cycle, 0.5));
  ASSERT_EQ(fitting.forms.size(), 1U);
  const FittedRatings& form = fitting.forms[0];
  EXPECT_EQ(form.form, "trip-points");
  EXPECT_EQ(form.figures[0].name, "opening");
  EXPECT_NEAR(form.figures[0].value, 12.8, 1e-9);
  EXPECT_NEAR(form.figures[0].standard_uncertainty, std::sqrt((0.36 + 0.25) / 3.0), 1e-9);
  EXPECT_NEAR(form.figures[1].value, -4.5, 1e-9);
  EXPECT_NEAR(form.figures[2].value, 17.3, 1e-9);
  EXPECT_NEAR(form.figures[2].standard_uncertainty, std::sqrt((0.36 + 0.25) / 3.0), 1e-9);  // of both gaps
  EXPECT_TRUE(fitting.remarks.empty());
  EXPECT_EQ(form.from, AnyQuantity(celsius(-5)));
  EXPECT_EQ(form.to, AnyQuantity(celsius(13.4)));
}

TEST(TripFit, MakesNoRatingsOfASwitchThatClosesAsItWarms) {
  const Fitting fitting = fit(rows_of({{'C', 0}, {'O', 1}, {'O', 20}, {'C', 19}}));
  EXPECT_EQ(fitting.forms.at(0).ratings.members(), nullptr);
  EXPECT_THAT(remarks_of(fitting), ElementsAre("closes-warmer"));
}

TEST(TripFit, ItsRatingsAreValidAndMakeAPart) {
  const Fitting fitting = fit(rows_of(cycle, 0.5));
  const Schema schema(descriptor().ratings_schema, "ratings");
  EXPECT_TRUE(schema.problems(fitting.forms.at(0).ratings).empty());
  std::vector<Problem> problems;
  const auto read = read_ratings(fitting.forms[0].ratings, problems);
  ASSERT_TRUE(read);
  EXPECT_NEAR(read->opening.nominal.celsius(), 12.8, 1e-6);
  // What one part was measured to does not make its twins bad: the usual 3 K between good ones (common practice, no
  // source). Where the thermometer knows less, there are no ratings: wider limits would pass bad ones.
  EXPECT_NEAR(read->opening.tolerance.value(), 3.0, 1e-6);
  const Fitting vague = fit(rows_of(cycle, 3.0));
  EXPECT_EQ(vague.forms.at(0).ratings.members(), nullptr);
  EXPECT_EQ(vague.remarks.back().text.id, "too-doubtful");
}

TEST(TripFit, AResidualIsWhereARowDisagrees) {
  const Fitting fitting = fit(rows_of(cycle));
  const FittedRatings& form = fitting.forms.at(0);
  ASSERT_EQ(form.residuals.size(), cycle.size());
  for (const AnyQuantity& residual : form.residuals) EXPECT_EQ(residual.value_in_si(), 0.0);
  EXPECT_EQ(form.standard_deviation.value_in_si(), 0.0);
  std::vector<Step> late = cycle;
  late.push_back({'C', 15});
  EXPECT_NEAR(fit(rows_of(late)).forms.at(0).residuals.back().value_in_si(), 2.2, 1e-9);
}

TEST(TripFit, SeveralCyclesMeetOrScatter) {
  const std::vector<Step> three{{'C', 12.2}, {'O', 13.4}, {'O', -4}, {'C', -5},   {'C', 12.0},
                                {'O', 13.1}, {'O', -4},   {'C', -5}, {'C', 12.6}, {'O', 13.2}};
  EXPECT_NEAR(fit(rows_of(three)).forms.at(0).figures[0].value, 12.85, 1e-9);
  EXPECT_NEAR(fit(rows_of(three)).forms.at(0).figures[0].standard_uncertainty, 0.144338, 1e-6);
  const std::vector<Step> apart{{'C', 11}, {'O', 11.5}, {'O', -4}, {'C', -5}, {'C', 13}, {'O', 13.6}};
  EXPECT_THAT(remarks_of(fit(rows_of(apart))), ElementsAre("opening-scatters"));
}

TEST(TripFit, RemarksOnWhatDoesNotCount) {
  EXPECT_THAT(remarks_of(fit(rows_of({{'C', 14}, {'O', 12}}))), ElementsAre("opened-backwards", "never-moved"));
  EXPECT_THAT(remarks_of(fit(rows_of({{'C', -18}, {'O', 22}}))), ElementsAre("far-apart", "never-moved"));
  EXPECT_THAT(remarks_of(fit(rows_of({{'C', 12.2}, {'O', 13.4}}))), ElementsAre("never-closed"));
  EXPECT_THAT(remarks_of(fit(rows_of({{'O', -4}, {'C', -5}}))), ElementsAre("never-opened"));
  EXPECT_THAT(remarks_of(fit(rows_of({{'C', 12.2}, {'C', 13.4}}))), ElementsAre("never-moved"));
  // Closed and open at one temperature: the contact comes and goes.
  EXPECT_THAT(remarks_of(fit(rows_of({{'C', 13.0}, {'O', 13.0}}))), ElementsAre("by-itself", "never-moved"));
  EXPECT_TRUE(fit({}).forms.empty());
}

TEST(TripFit, OneWayGivesOnePointAndNoRatings) {
  const Fitting warmed = fit(rows_of({{'C', 12.2}, {'O', 13.4}}));
  ASSERT_EQ(warmed.forms.size(), 1U);
  ASSERT_EQ(warmed.forms[0].figures.size(), 1U);
  EXPECT_EQ(warmed.forms[0].figures[0].name, "opening");
  EXPECT_NEAR(warmed.forms[0].figures[0].value, 12.8, 1e-9);
  EXPECT_EQ(warmed.forms[0].ratings.members(), nullptr);
  const Fitting cooled = fit(rows_of({{'O', -4}, {'C', -5}}));
  ASSERT_EQ(cooled.forms.size(), 1U);
  EXPECT_EQ(cooled.forms[0].figures.at(0).name, "closing");
}

TEST(TripFit, LeavesOutAReadingThatIsNeither) {
  std::vector<MeasuredRow> rows = rows_of(cycle);
  rows[1].observed = parse_observed("50 ohm", Dimension::resistance);
  const Fitting fitting = fit(rows);
  EXPECT_THAT(remarks_of(fitting), ElementsAre("neither"));
  EXPECT_TRUE(fitting.remarks[0].left_out);
  EXPECT_EQ(fitting.remarks[0].row, 1U);
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 12.2, 1e-9);  // between 11 and 13.4
}

TEST(TripFit, OffersNothingForAnotherMeasurand) {
  const ThermostatKind kind;
  const std::vector<MeasuredRow> rows = rows_of(cycle);
  EXPECT_TRUE(kind.fit({voltage_drop, load_current, rows}).forms.empty());
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
