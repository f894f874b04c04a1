#include <cmath>
#include <cstdio>

#include <gtest/gtest.h>

#include <ohmwright/locate/search.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

// The whole search, step by step, on readings that the fault itself gives (the middle of what it predicts).

namespace ohmwright::locate {
namespace {

using namespace testing;

struct Ended {
  Standing standing;
  double minutes = 0.0;
  std::size_t steps = 0;
};

class Policy : public ::testing::Test {
 protected:
  Appliance appliance = timer_appliance();
  Meter meter = hand_meter();

  /// What the meter shows of an instance, as somebody would write it down.
  Observed shown(Search& search, std::size_t instance, const Measurement& measurement) const {
    const auto outcomes = search.reasoner().predicted(instance, measurement);
    const auto likeliest = std::max_element(outcomes.begin(), outcomes.end(),
                                            [](const auto& a, const auto& b) { return a.weight < b.weight; });
    if (likeliest->form == PredictedOutcome::Form::over_range) return OverRange{};
    const Scale scale = scale_of(Probe::ohms);
    const double value = scale.linear_below * std::sinh(likeliest->mean) + search.reasoner().prober().lead_resistance();
    return StatedValue{AnyQuantity(Dimension::resistance, value), std::nullopt, Unit::si(Dimension::resistance)};
  }

  Ended run(std::size_t fault, const SearchSettings& settings = {}) const {
    Search search(appliance, meter, site_as_found(appliance), settings);
    search.think();
    std::size_t truth = 0;
    for (const Reasoner::Weighed& weighed : search.reasoner().likeliest(100000)) {
      const Candidate& candidate = *search.reasoner().instance(weighed.instance).candidate;
      if (candidate.faults.size() == 1 && candidate.faults[0] == fault) truth = weighed.instance;
    }
    Ended ended;
    for (; ended.steps < 20; ++ended.steps) {
      search.think();
      ended.standing = search.standing();
      if (ended.standing.form != Standing::Form::open || search.steps().empty()) return ended;
      const Step step = search.steps().front();
      ended.minutes += step.minutes;
      search.add({step.measurement, shown(search, truth, step.measurement), {}});
    }
    return ended;
  }
};

/// What no test point here tells from health: leaks go to a frame that is connected nowhere, 0.05 ohm more in a splice
/// or lead is within the test leads' doubt, and the fan lies beside 6 ohm of compressor.
bool is_hidden(const std::string& fault) {
  return fault.find("leaks") != std::string::npos || fault == "splice.high" || fault == "heater-lead.high" ||
         fault.find("fan.") == 0;
}

/// What only readings in the warmth tell from health: no surer than that it was warm.
bool hangs_on_one_set_up(const std::string& fault) { return fault == "thermostat.welded"; }

TEST_F(Policy, NamesEverySingleFaultThatCanBeToldApart) {
  const FaultList faults(appliance, PriorSettings{});
  double minutes = 0.0;
  int named = 0;
  int separable = 0;
  for (std::size_t fault = 0; fault < faults.faults().size(); ++fault) {
    const std::string name = faults.name(fault);
    if (is_hidden(name)) continue;
    ++separable;
    SearchSettings settings;
    if (hangs_on_one_set_up(name)) {
      const Ended on_trust = run(fault);
      EXPECT_EQ(on_trust.standing.parts, std::vector<std::size_t>{faults.faults()[fault].fault.part});
      EXPECT_EQ(on_trust.standing.form, Standing::Form::no_more_steps) << "all readings hang on one set-up";
      settings.readings.temperature_missed = 0.0;  // a thermometer has confirmed it
    }
    const Ended ended = run(fault, settings);
    minutes += ended.minutes;
    const std::size_t part = faults.faults()[fault].fault.part;
    const bool right = ended.standing.parts == std::vector<std::size_t>{part};
    const bool said = ended.standing.form == Standing::Form::likely || ended.standing.form == Standing::Form::settled;
    EXPECT_TRUE(!said || right) << name << " taken for " << appliance.parts[ended.standing.parts.front()].id;
    named += said && right ? 1 : 0;
    std::printf("%-26s %s after %zu steps, %4.0f min, p %.3f\n", name.c_str(), said ? "named" : "open ", ended.steps,
                ended.minutes, ended.standing.probability);
  }
  std::printf("%d of %d named, %.1f min on average\n", named, separable, minutes / separable);
  EXPECT_EQ(named, separable);
  EXPECT_LT(minutes / separable, 20.0);
}

}  // namespace
}  // namespace ohmwright::locate
