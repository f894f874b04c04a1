#include <cmath>
#include <optional>

#include <gtest/gtest.h>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/thermal/appliance_run.hpp>

namespace ohmwright::thermal {
namespace {

using cycles::LogAnalyser;
using cycles::LogAnalysis;

struct Judged {
  ApplianceLog log;
  LogAnalysis analysis;
  std::vector<cycles::LogVerdict> verdicts;

  Outcome of(std::string_view rule) const {
    const cycles::LogVerdict* verdict = cycles::find_verdict(verdicts, rule);
    return verdict == nullptr ? Outcome::silent : verdict->outcome;
  }
};

Judged judged(SimulatedFault fault, std::uint64_t seed, double spacing_second = 30.0) {
  AppliancePlan plan;
  plan.fault = fault;
  plan.spacing_second = spacing_second;
  Judged result{run_appliance(plan, seed), {}, {}};
  cycles::LogRatings ratings;
  ratings.end_temperature_kelvin = plan.end_kelvin;
  ratings.time_limit_second = plan.time_limit_second;
  ratings.line_volt = plan.line_volt;
  ratings.line_half_width_volt = 1.0;
  ratings.heater_volt = plan.line_volt;
  ratings.heater_watt = cycles::RatedBand{plan.heater_watt, 0.9 * plan.heater_watt, 1.1 * plan.heater_watt};
  ratings.interval_least_second = 0.9 * plan.interval_second;
  ratings.interval_most_second = 1.2 * plan.interval_second;
  ratings.interval_counts_running = true;
  LogAnalyser analyser(ratings);
  analyser.take(result.log.rows);
  result.analysis = analyser.finish();
  result.verdicts = cycles::judge_log(result.analysis, ratings);
  return result;
}

class FaultsOfSeeds : public ::testing::TestWithParam<std::uint64_t> {};

TEST_P(FaultsOfSeeds, OfAWellOneThereIsNone) {
  const Judged well = judged(SimulatedFault::none, GetParam());
  EXPECT_FALSE(cycles::asks_for_a_test(well.verdicts));
  EXPECT_EQ(well.of("defrosts-come"), Outcome::within_limits);
  EXPECT_EQ(well.of("defrost-end"), Outcome::within_limits);
  EXPECT_EQ(well.of("compressor-stops"), Outcome::within_limits);
  EXPECT_EQ(well.of("heater-power"), Outcome::within_limits);
  EXPECT_EQ(well.of("interval"), Outcome::within_limits);
  EXPECT_EQ(well.of("air-over-coil"), Outcome::within_limits);
  EXPECT_EQ(well.analysis.defrost_count, well.log.defrosts.size());
  for (std::size_t i = 0; i < well.log.defrosts.size(); ++i)
    EXPECT_NEAR(well.analysis.defrosts[i].start_second, well.log.defrosts[i].start_second, 60.0);
}

TEST_P(FaultsOfSeeds, AHeaterThatIsOpenDrawsNothing) {
  const Judged open = judged(SimulatedFault::no_heat, GetParam());
  EXPECT_EQ(open.of("heat-comes-from-heater"), Outcome::out_of_limits);
  EXPECT_NE(open.of("defrost-end"), Outcome::out_of_limits);
}

TEST_P(FaultsOfSeeds, OneOfTwoElementsOpenDrawsTooLittle) {
  const Judged weak = judged(SimulatedFault::weak_heat, GetParam());
  EXPECT_EQ(weak.of("heater-power"), Outcome::out_of_limits);
  EXPECT_EQ(cycles::find_verdict(weak.verdicts, "heater-power")->text, "too-little");
}

TEST_P(FaultsOfSeeds, ASensorThatReadsTooWarmEndsItTooEarly) {
  const Judged early = judged(SimulatedFault::ends_early, GetParam());
  EXPECT_EQ(early.of("defrost-end"), Outcome::out_of_limits);
  EXPECT_EQ(cycles::find_verdict(early.verdicts, "defrost-end")->text, "too-early");
}

TEST_P(FaultsOfSeeds, AFanThatStandsLetsTheCoilGetFarColderThanTheCabinet) {
  EXPECT_EQ(judged(SimulatedFault::fan_stopped, GetParam()).of("air-over-coil"), Outcome::out_of_limits);
}

TEST_P(FaultsOfSeeds, ADoorAjarLetsTheCompressorNeverStop) {
  EXPECT_EQ(judged(SimulatedFault::door_ajar, GetParam()).of("compressor-stops"), Outcome::out_of_limits);
}

TEST_P(FaultsOfSeeds, AStuckTimerNeverDefrosts) {
  EXPECT_EQ(judged(SimulatedFault::never_starts, GetParam()).of("defrosts-come"), Outcome::out_of_limits);
}

TEST_P(FaultsOfSeeds, ASensorThatReadsTooColdEndsItByTime) {
  EXPECT_EQ(judged(SimulatedFault::ends_late, GetParam()).of("defrost-end"), Outcome::out_of_limits);
}

TEST_P(FaultsOfSeeds, CoolingThatIsTooWeakNeverStops) {
  EXPECT_EQ(judged(SimulatedFault::little_cooling, GetParam()).of("compressor-stops"), Outcome::out_of_limits);
}

INSTANTIATE_TEST_SUITE_P(Seeds, FaultsOfSeeds, ::testing::Values(1U, 2U, 3U));

// What a log gives a search for the fault are words of component/symptom.hpp, whatever the fault.
TEST(Faults, BringOnlySymptomsThatASearchKnows) {
  std::size_t words = 0;
  for (const SimulatedFault fault : simulated_faults())
    for (const cycles::LogVerdict& verdict : judged(fault, 4).verdicts)
      for (const std::string_view symptom : verdict.symptoms) {
        EXPECT_NE(symptom_named(symptom), nullptr) << symptom;
        EXPECT_EQ(verdict.outcome, Outcome::out_of_limits) << verdict.rule;
        ++words;
      }
  EXPECT_GE(words, 7U);
}

TEST(ApplianceRun, ClosesItsEnergy) {
  for (const SimulatedFault fault : simulated_faults()) {
    AppliancePlan plan;
    plan.fault = fault;
    EXPECT_LT(run_appliance(plan, 5).energy_residual_ratio, 1e-6) << name_of(fault);
  }
}

TEST(ApplianceRun, IsTheSameForTheSameSeed) {
  AppliancePlan plan;
  plan.days = 1.0;
  const ApplianceLog one = run_appliance(plan, 7);
  const ApplianceLog same = run_appliance(plan, 7);
  const ApplianceLog other = run_appliance(plan, 8);
  ASSERT_EQ(one.rows.size(), same.rows.size());
  bool differs = false;
  for (std::size_t i = 0; i < one.rows.size(); ++i)
    for (std::size_t q = 0; q < 3; ++q) {
      EXPECT_EQ(one.rows[i].value[q], same.rows[i].value[q]);
      differs = differs || one.rows[i].value[q] != other.rows[i].value[q];
    }
  EXPECT_TRUE(differs);
}

}  // namespace
}  // namespace ohmwright::thermal
