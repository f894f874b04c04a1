#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/observed.hpp>

#include "control_fixture.hpp"
#include "part/comparison.hpp"
#include "part/motor_fit.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

MeasuredRow row(double ohm, double celsius) {
  return {AnyQuantity(Temperature::from_celsius(celsius)), 0.0,
          parse_stated_value(std::to_string(ohm) + " ohm", Dimension::resistance)};
}

Fitting fit(const std::vector<MeasuredRow>& rows) { return fit_motor({motor, part_temperature, rows}); }

TEST(MotorFit, BringsEachRowTo25Degrees) {
  const Fitting fitting = fit({row(8265.8960, -20), row(10000.0, 25)});
  ASSERT_EQ(fitting.forms.size(), 1U);
  EXPECT_NEAR(fitting.forms[0].figures.at(0).value, 10000.0, 1e-3);
  EXPECT_TRUE(fitting.remarks.empty());
  std::vector<Problem> problems;
  EXPECT_TRUE(read_ratings(fitting.forms[0].ratings, problems));
}

TEST(MotorFit, LeavesAStrayOutAndSaysSo) {
  const Fitting fitting = fit({row(8000, 25), row(8020, 25), row(800, 25)});
  ASSERT_EQ(fitting.remarks.size(), 1U);
  EXPECT_EQ(fitting.remarks[0].text.id, "stray");
  EXPECT_TRUE(fitting.remarks[0].left_out);
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 8010.0, 1e-9);
}

TEST(MotorFit, WithoutRowsOfAMotorThereIsNoForm) {
  MeasuredRow open = row(1, 25);
  open.observed = parse_observed("OL", Dimension::resistance, {});
  const Fitting fitting = fit({open});
  EXPECT_TRUE(fitting.forms.empty());
  EXPECT_EQ(fitting.remarks.size(), 2U);
  EXPECT_TRUE(fit_motor({voltage_drop, load_current, {}}).forms.empty());
}

/// Outcome of the statement with that id.
std::optional<Outcome> said(const std::vector<EquivalenceFinding>& findings, std::string_view id) {
  const auto found =
      std::find_if(findings.begin(), findings.end(), [id](const EquivalenceFinding& f) { return f.text.id == id; });
  return found == findings.end() ? std::nullopt : std::optional(found->outcome);
}

std::vector<EquivalenceFinding> compared(const ControlRatings& original, const ControlRatings& candidate,
                                         const ComparisonContext& context = {}) {
  return compare_controls(&original, &candidate, context);
}

TEST(Comparison, ATimerForATimer) {
  const auto findings = compared(timer(), timer());
  for (const EquivalenceFinding& finding : findings) EXPECT_EQ(finding.outcome, Outcome::within_limits);
  EXPECT_TRUE(said(findings, "interval-alike"));
  ControlRatings fifty_hertz = timer();
  fifty_hertz.frequency = Frequency::from_value(50.0);
  EXPECT_EQ(said(compared(timer(), fifty_hertz), "frequency-differs"), Outcome::out_of_limits);
  ControlRatings longer = timer();
  longer.defrost_time.most = Duration::from_value(40 * 60.0);
  EXPECT_EQ(said(compared(timer(), longer), "defrost-time-partly-alike"), Outcome::undecided);
  ControlRatings seldom = timer();
  seldom.interval = {Duration::from_value(20 * 3600.0), Duration::from_value(30 * 3600.0)};
  EXPECT_EQ(said(compared(timer(), seldom), "interval-differs"), Outcome::out_of_limits);
  seldom.interval_counts = Counts::clock;
  EXPECT_EQ(said(compared(timer(), seldom), "counts-differ"), Outcome::out_of_limits);
}

TEST(Comparison, ABoardIsNoTimer) {
  EXPECT_EQ(said(compared(timer(), board()), "type-differs"), Outcome::out_of_limits);
  EXPECT_EQ(said(compared(timer(), board()), "voltage-differs"), Outcome::out_of_limits);
  EXPECT_EQ(said(compared(board(), solid_state_board()), "switching-differs"), Outcome::undecided);
  EXPECT_EQ(said(compared(board(), board()), "defrost-time-at-most"), Outcome::within_limits);
}

TEST(Comparison, TheContactsHaveToCarryTheLoad) {
  const ConditionValue load{load_current, 3.75};
  ComparisonContext context;
  context.situation = Situation({&load, 1});
  EXPECT_EQ(said(compared(timer(), timer(), context), "current-unknown"), Outcome::undecided);
  ControlRatings rated = timer();
  rated.contact_current = Current::from_value(10.0);
  EXPECT_EQ(said(compared(timer(), rated, context), "current-enough"), Outcome::within_limits);
  rated.contact_current = Current::from_value(2.0);
  EXPECT_EQ(said(compared(timer(), rated, context), "current-too-small"), Outcome::out_of_limits);
}

TEST(Comparison, ASensorBoardReadsOnlyItsOwnSensor) {
  ControlRatings other = sensor_board();
  EXPECT_EQ(said(compared(sensor_board(), other), "sensor-input-alike"), Outcome::within_limits);
  other.sensor->pull_up = Resistance::from_value(4.7e3);
  EXPECT_EQ(said(compared(sensor_board(), other), "sensor-input-differs"), Outcome::out_of_limits);
  other.sensor.reset();
  EXPECT_EQ(said(compared(sensor_board(), other), "sensor-input-unknown"), Outcome::undecided);
  EXPECT_EQ(compare_controls(nullptr, &other, {}).at(0).text.id, "ratings-unknown");
}

}  // namespace
}  // namespace ohmwright::defrost_control
