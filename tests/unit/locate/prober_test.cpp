#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/prober.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

// Predicted readings of the timer circuit. Source of the figures: nodal analysis by hand program, equal to a circuit
// simulator's within 2.3e-11 where that answers (computed twice); printed digits.

namespace ohmwright::locate {
namespace {

using namespace testing;

/// What an exact meter would show, for the candidate with these faults; negative: over-range.
class Predictions : public ::testing::Test {
 protected:
  Appliance appliance = timer_appliance(0.0);
  Meter meter = exact_meter();
  FaultList faults{appliance, PriorSettings{}};
  Prober prober{faults, site_as_found(appliance), meter, every_set_up_takes()};

  static ReadingModel every_set_up_takes() {
    ReadingModel model;
    model.set_up_missed = model.temperature_missed = 0.0;
    return model;
  }

  const Candidate& candidate(const std::vector<std::string>& names) const {
    for (const Candidate& one : faults.candidates()) {
      std::vector<std::string> has;
      for (const std::uint16_t fault : one.faults) has.push_back(faults.name(fault));
      if (has == names && !one.outside_cause) return one;
    }
    throw std::runtime_error("no such candidate");
  }

  double shown(const std::vector<std::string>& names, const std::string& test_point, const std::string& set_up = "") {
    Instance instance;
    const Candidate& of = candidate(names);
    instance.candidate = &of;
    Measurement measurement{test_point_named(appliance, test_point), {}};
    if (!set_up.empty()) measurement.set_up = set_up_named(appliance, set_up);
    const std::vector<PredictedOutcome>& outcomes = prober.predict(instance, measurement);
    EXPECT_EQ(outcomes.size(), 1U);
    const Scale scale = scale_of(appliance.test_points[measurement.test_point].probe);
    if (outcomes.front().form == PredictedOutcome::Form::over_range) return -1.0;
    if (outcomes.front().form == PredictedOutcome::Form::floating) return -2.0;
    return scale.linear_below * std::sinh(outcomes.front().mean);
  }
};

TEST_F(Predictions, ColdAndHealthy) {
  EXPECT_NEAR(shown({}, "D-X"), 0.05, 1e-6);
  EXPECT_NEAR(shown({}, "X-N"), 31.971715, 1e-6);
  EXPECT_NEAR(shown({}, "D-N"), 32.021315, 1e-6);
  EXPECT_NEAR(shown({}, "L-D"), 0.05, 1e-6);
  EXPECT_NEAR(shown({}, "L-N"), 32.070915, 1e-6);
  EXPECT_NEAR(shown({}, "H1-H2"), 31.872513, 1e-6);
  EXPECT_NEAR(shown({}, "R-N"), 5.714286, 1e-6);
}

TEST_F(Predictions, WarmIsNoFaultAndReadsAsOpen) {
  EXPECT_NEAR(shown({}, "D-X", "warmed"), 8032.15, 1e-3);
  EXPECT_NEAR(shown({"thermostat.stuck-open"}, "D-X"), 8032.15, 1e-3);
  EXPECT_NEAR(shown({}, "X-N", "warmed"), 32.1, 1e-6);
}

TEST_F(Predictions, HeaterOpenIsHiddenByTheTimerMotor) {
  EXPECT_NEAR(shown({"heater.open"}, "X-N"), 8000.1, 1e-3);
  EXPECT_NEAR(shown({"heater.open"}, "H1-H2"), 8000.2, 1e-3);
  EXPECT_NEAR(shown({"heater-lead.open"}, "H1-H2"), 32.0, 1e-6);
  EXPECT_NEAR(shown({"heater-lead.open"}, "X-N"), 8000.1, 1e-3);
}

TEST_F(Predictions, AWeldedRunContactCollapsesEverything) {
  EXPECT_NEAR(shown({"run-contact.welded"}, "X-N"), 4.955471, 1e-6);
  EXPECT_NEAR(shown({"run-contact.welded"}, "D-X"), 0.049934, 1e-6);
  EXPECT_NEAR(shown({"run-contact.welded", "thermostat.stuck-open"}, "D-X"), 37.910135, 1e-6);
  EXPECT_NEAR(shown({"run-contact.welded"}, "L-N"), 4.886083, 1e-6);
}

TEST_F(Predictions, TwoFaultsCanMaskEachOther) {
  EXPECT_EQ(shown({"thermostat.stuck-open", "timer-motor.open"}, "D-X"), -1.0);
  EXPECT_EQ(shown({"thermostat.stuck-open", "timer-motor.open"}, "D-N"), -1.0);
  EXPECT_NEAR(shown({"thermostat.stuck-open", "timer-motor.open"}, "X-N"), 32.1, 1e-6);
}

TEST_F(Predictions, ThePositionOfTheTimerIsPartOfTheReading) {
  EXPECT_NEAR(shown({}, "X-N", "timer-to-run"), 32.1, 1e-6);
  EXPECT_NEAR(shown({}, "L-D", "timer-to-run"), 37.910135, 1e-6);
  EXPECT_NEAR(shown({}, "L-N", "timer-to-run"), 5.760135, 1e-6);
  EXPECT_EQ(shown({"thermostat.stuck-open"}, "L-D", "timer-to-run"), -1.0);
  EXPECT_EQ(shown({"heater.open"}, "X-N", "timer-to-run"), -1.0);
}

TEST_F(Predictions, VoltsUnderPower) {
  // 120 V, no resistance in the cord: D reads L less the drop over its contact.
  EXPECT_NEAR(shown({}, "D volts"), 120.0 * 32.15 / 32.2 + 0.0, 0.01);
  EXPECT_NEAR(shown({"thermostat.stuck-open"}, "X volts"), 0.0, 0.01);
  EXPECT_NEAR(shown({"heater.open"}, "H1 volts"), 120.0, 0.01);
  EXPECT_NEAR(shown({}, "heater current"), 120.0 / 32.2, 0.001);
  EXPECT_NEAR(shown({"heater.open"}, "heater current"), 0.0, 0.001);
}

TEST_F(Predictions, AConductorThatHangsInTheAirShowsAGhost) {
  EXPECT_EQ(shown({"thermostat.stuck-open", "heater.open"}, "X volts"), -2.0);
}

TEST_F(Predictions, OnALowImpedanceInputAGhostFalls) {
  // 200 pF at 60 Hz is 13.3 megohm by hand, so that some 0.1 V is left over 10 kilohm.
  const Measurement low{test_point_named(appliance, "X volts"), {}, true};
  Instance instance;
  const Candidate& both = candidate({"thermostat.stuck-open", "heater.open"});
  instance.candidate = &both;
  const std::vector<PredictedOutcome>& fallen = prober.predict(instance, low);
  ASSERT_EQ(fallen.size(), 1U);
  EXPECT_EQ(fallen.front().form, PredictedOutcome::Form::value);
  EXPECT_LT(scale_of(Probe::volts).linear_below * std::sinh(fallen.front().mean), 0.3);
  const Candidate& open = candidate({"heater.open"});
  instance.candidate = &open;
  EXPECT_NEAR(std::sinh(prober.predict(instance, {test_point_named(appliance, "H1 volts"), {}, true}).front().mean),
              120.0, 0.01);
}

TEST_F(Predictions, ASetUpMayNotHaveTaken) {
  Prober doubting(faults, site_as_found(appliance), meter, ReadingModel{});
  const Candidate& sound = candidate({});
  Instance instance;
  instance.candidate = &sound;
  const Measurement turned{test_point_named(appliance, "L-N"), set_up_named(appliance, "timer-to-run")};
  const std::vector<PredictedOutcome>& outcomes = doubting.predict(instance, turned);
  ASSERT_EQ(outcomes.size(), 2U);
  EXPECT_NEAR(outcomes[0].weight, 0.95, 1e-12);
  EXPECT_NEAR(0.5 * std::sinh(outcomes[0].mean), 5.760135, 1e-6);
  EXPECT_NEAR(outcomes[1].weight, 0.05, 1e-12);
  EXPECT_NEAR(0.5 * std::sinh(outcomes[1].mean), 32.070915, 1e-6);
  const Measurement indifferent{test_point_named(appliance, "H1-H2"), set_up_named(appliance, "warmed")};
  EXPECT_NEAR(doubting.predict(instance, indifferent).front().weight, 1.0, 0.02);
}

}  // namespace
}  // namespace ohmwright::locate
