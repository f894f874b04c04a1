#include <gtest/gtest.h>

#include "analysed.hpp"
#include "event_tally.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

// Logs of known events: rows of 1 s to 5 min, noise, jitter, holes, ice makers, inrush, inverters, compressors that
// never stop, intervals of 8 to 54 h. The program simulated_logs runs a thousand of them.
TEST(SimulatedLogs, GiveTheirDefrostsAndWhatEndedThem) {
  EventTally tally;
  EventTally power_alone;
  EventTally with_coil;
  for (std::uint64_t seed = 5001; seed <= 5200; ++seed) {
    const SimulatedLog log = simulate(plan_from_seed(seed), seed);
    const LogAnalysis analysis = analysed(log);
    tally.add(log, analysis, seed);
    (log.plan.has_coil ? with_coil : power_alone).add(log, analysis, seed);
  }
  EXPECT_GE(power_alone.recall(), 0.99) << power_alone.misses;
  EXPECT_GE(power_alone.precision(), 0.99) << power_alone.misses;
  EXPECT_GT(tally.expected, 1000U);
  EXPECT_GE(tally.recall(), 0.99) << tally.misses;
  EXPECT_GE(tally.precision(), 0.99) << tally.misses;
  EXPECT_GE(tally.onset_share(), 0.99) << tally.misses;
  EXPECT_GE(tally.cause_share(), 0.97) << tally.misses;
  // Of the load alone, lengths tell no cause.
  EXPECT_GE(static_cast<double>(with_coil.causes), 0.97 * static_cast<double>(with_coil.found));
  EXPECT_EQ(power_alone.wrong_causes, 0U);
}

// Of the thousand logs, those in which a heater fills two or three rows, and an ice maker's one.
TEST(SimulatedLogs, OfRowsFarApartGiveTheirDefrosts) {
  EventTally tally;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    const SimulatedPlan plan = plan_from_seed(seed);
    if (plan.spacing_second < 300.0) continue;
    const SimulatedLog log = simulate(plan, seed);
    tally.add(log, analysed(log), seed);
  }
  EXPECT_GT(tally.expected, 900U);
  EXPECT_GE(tally.recall(), 0.99) << tally.misses;
  EXPECT_GE(tally.precision(), 0.99) << tally.misses;
}

TEST(SimulatedLogs, AreTheSameForOneSeed) {
  const SimulatedLog once = simulate(plan_from_seed(7), 7);
  const SimulatedLog again = simulate(plan_from_seed(7), 7);
  ASSERT_EQ(once.rows.size(), again.rows.size());
  EXPECT_EQ(as_text(once), as_text(again));
}

TEST(SimulatedLogs, GiveTheSameAsTextAndAsRows) {
  SimulatedPlan plan = plain_plan();
  plan.days = 2.0;
  const SimulatedLog log = simulate(plan, 11);
  const LogAnalysis from_rows = analysed(log);
  const LogAnalysis from_text = analysed(as_text(log));
  ASSERT_GE(from_rows.defrosts.size(), 3U);
  ASSERT_EQ(from_text.defrosts.size(), from_rows.defrosts.size());
  EXPECT_EQ(from_text.run_count, from_rows.run_count);
  for (std::size_t i = 0; i < from_rows.defrosts.size(); ++i) {
    EXPECT_NEAR(from_text.defrosts[i].start_second, from_rows.defrosts[i].start_second, 20.0);
    EXPECT_EQ(from_text.defrosts[i].cause, from_rows.defrosts[i].cause);
  }
}

TEST(SimulatedLogs, GiveTheCompressorsRuns) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const SimulatedLog log = simulate(plain_plan(), seed);
    const LogAnalysis analysis = analysed(log);
    EXPECT_NEAR(static_cast<double>(analysis.run_count), static_cast<double>(log.compressor_starts), 1.0) << seed;
    EXPECT_NEAR(*analysis.typical_run_second, 1200.0, 60.0) << seed;
    EXPECT_GT(*analysis.run_share, 0.35);
    EXPECT_LT(*analysis.run_share, 0.55);
    EXPECT_FALSE(analysis.never_stops);
  }
}

TEST(SimulatedLogs, WithoutDefrostGiveNone) {
  EventTally tally;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SimulatedPlan plan = plan_from_seed(seed);
    plan.days = 4.0;
    plan.interval_hour = 1000.0;
    const SimulatedLog log = simulate(plan, seed);
    const LogAnalysis analysis = analysed(log);
    tally.add(log, analysis, seed);
    if (analysis.defrosts.empty()) {
      EXPECT_TRUE(says(analysis, "no-defrost-seen"));
    }
  }
  // Four days each: fewer than one false one in forty days.
  EXPECT_LE(tally.false_ones, 6U) << tally.misses;
}

}  // namespace
}  // namespace ohmwright::cycles
