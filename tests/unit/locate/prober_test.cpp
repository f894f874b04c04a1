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
  Prober prober{faults, site_as_found(appliance), meter, ReadingModel{}};

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

}  // namespace
}  // namespace ohmwright::locate
