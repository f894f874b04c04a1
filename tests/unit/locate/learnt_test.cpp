#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/expected_reading.hpp>
#include <ohmwright/locate/learnt.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

// What the readings so far teach of those to come: the next step is chosen by what a reading will show now, not by what
// it would have shown at first.

namespace ohmwright::locate {
namespace {

using namespace testing;

constexpr std::uint64_t heater_tolerance = 40;
constexpr std::uint64_t relay = 42;

/// A reading of a heater that may be 10 % off, and of little else.
PredictedOutcome of_heater(double mean) {
  PredictedOutcome made;
  made.mean = mean;
  made.uncertainty = std::hypot(0.1, 0.02);
  made.shared.push_back({heater_tolerance, 0.1});
  return made;
}

TEST(Learnt, ExpectsAHeaterThatReadHighToReadHighAgain) {
  Learnt learnt;
  SeenReading seen;
  seen.at = 4.15;
  (void)learnt.take_in({{of_heater(4.0)}}, seen, Probe::ohms, 1e-4, ReadingModel{});
  const std::vector<PredictedOutcome> alone{of_heater(4.2)};
  ASSERT_TRUE(learnt.speaks_of(alone));
  const std::vector<PredictedOutcome> now = learnt.expected(alone);
  // of a normal tolerance of 0.1 seen with 0.02: 0.15 · 0.01 / 0.0104, and 0.0004 · 0.01 / 0.0104 left of its variance
  EXPECT_NEAR(now[0].mean, 4.2 + 0.15 * 0.01 / 0.0104, 1e-9);
  EXPECT_NEAR(now[0].uncertainty, std::sqrt(0.0004 + 0.0004 * 0.01 / 0.0104), 1e-9);
}

TEST(Learnt, ExpectsARelayAsItWasFound) {
  std::vector<PredictedOutcome> ways(2);
  ways[0].mean = 0.1;
  ways[0].uncertainty = 0.05;
  ways[0].weight = 0.6;
  ways[0].contacts.push_back({relay, false, 0.6});
  ways[1].form = PredictedOutcome::Form::over_range;
  ways[1].weight = 0.4;
  ways[1].contacts.push_back({relay, true, 0.4});
  Learnt learnt;
  SeenReading seen;
  seen.form = SeenReading::Form::over_range;
  (void)learnt.take_in(ways, seen, Probe::ohms, 0.003, ReadingModel{});
  EXPECT_NEAR(learnt.expected(ways)[1].weight, 0.98, 0.01);
}

TEST(Learnt, SaysNothingOfWhatNoReadingHadToDoWith) {
  const Learnt learnt;
  EXPECT_FALSE(learnt.speaks_of({{of_heater(4.0)}}));
}

// A burnt contact has any of 5 to 50 ohm. Once it was read, the same contact at another test point has the ohms it had:
// the reading there tells of what else lies on its way, and no more of the contact.
TEST(NextStep, IsChosenByWhatTheReadingsTaught) {
  const Appliance appliance = timer_appliance();
  const Meter meter = hand_meter();
  const FaultList faults(appliance, PriorSettings{});
  Prober prober(faults, site_as_found(appliance), meter, ReadingModel{});
  Reasoner reasoner(prober);
  const auto observed = [](const char* text) { return parse_observed(text, Dimension::resistance, {}); };
  const Measurement across{test_point_named(appliance, "D-X"), {}};
  const Measurement with_heater{test_point_named(appliance, "D-N"), {}};
  (void)reasoner.diagnose(std::vector<TakenReading>{{across, observed("20 ohm"), {}}}, {});
  const std::size_t burnt = reasoner.likeliest(1).front().instance;
  const std::size_t thermostat = part_named(appliance, "thermostat");
  ASSERT_EQ(faults.fault_of(*reasoner.instance(burnt).candidate, thermostat), contact_burnt);
  const double share_of_20_ohm = [&] {  // D-N reads 20 + 32 ohm beside the timer's motor
    double share = 0.0;
    const Learnt learnt = reasoner.learnt(burnt);
    for (const PredictedOutcome& outcome : learnt.expected(reasoner.predicted(burnt, with_heater)))
      if (std::abs(outcome.mean - scale_of(Probe::ohms).at(51.7)) < 0.15) share += outcome.weight;
    return share;
  }();
  EXPECT_GT(share_of_20_ohm, 0.9);
}

}  // namespace
}  // namespace ohmwright::locate
