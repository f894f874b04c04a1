#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/cycles/log_outline.hpp>

#include "../analysed.hpp"

namespace ohmwright::cycles {
namespace {

constexpr std::size_t power = index_of(LogQuantity::power);

PlotPoint point(double second, double width_second, float watt) {
  PlotPoint made{second, width_second, {}};
  made.value.fill(NAN);
  made.value[power] = watt;
  return made;
}

TEST(LogOutline, LosesNoPeakAndDoesNotGrow) {
  LogOutline outline;
  for (int i = 0; i < 1'000'000; ++i) outline.add(point(20.0 * i, 20.0, i == 777'777 ? 900.0F : 100.0F));
  EXPECT_LE(outline.columns().size(), LogOutline::most_columns);
  std::size_t peaks = 0;
  for (const auto& column : outline.columns()) {
    EXPECT_EQ(column[power].least, 100.0F);
    if (column[power].most == 900.0F) ++peaks;
  }
  EXPECT_EQ(peaks, 1U);
  const PlotColumns few = outline.in_columns(100);
  EXPECT_LE(few.size(), 100U);
  EXPECT_TRUE(few[0][index_of(LogQuantity::coil_temperature)].is_empty());
}

TEST(LogOutline, FillsTheTimeThatAPointStandsForAndLeavesGapsEmpty) {
  LogOutline outline;
  outline.add(point(0.0, 300.0, 5.0F));
  outline.add(point(600.0, 100.0, 7.0F));
  ASSERT_EQ(outline.columns().size(), 35U);
  EXPECT_EQ(outline.columns()[14][power].most, 5.0F);
  EXPECT_TRUE(outline.columns()[15][power].is_empty());
  EXPECT_TRUE(outline.columns()[29][power].is_empty());
  EXPECT_EQ(outline.columns()[30][power].most, 7.0F);
}

TEST(DefrostTraces, AreKeptOfTheLastDefrosts) {
  testing_support::SimulatedPlan plan = testing_support::plain_plan();
  plan.days = 10.0;
  const LogAnalysis analysis = testing_support::analysed(testing_support::simulate(plan, 3));
  ASSERT_GT(analysis.defrosts.size(), LogAnalysis::most_traces);
  ASSERT_EQ(analysis.traces.size(), LogAnalysis::most_traces);
  for (const DefrostTrace& trace : analysis.traces) {
    const Defrost& defrost = analysis.defrosts[trace.defrost];
    ASSERT_FALSE(trace.points.empty());
    EXPECT_LT(trace.points.front().second, defrost.start_second);
    EXPECT_GT(trace.points.back().second, defrost.end_second + 1800.0);
  }
  EXPECT_EQ(analysis.traces.back().defrost, analysis.defrosts.size() - 1);
}

}  // namespace
}  // namespace ohmwright::cycles
