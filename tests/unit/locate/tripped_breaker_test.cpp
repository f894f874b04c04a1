// A fault that bridges the supply trips the breaker: nothing is read live any more, wherever in the appliance the
// bridge is. Currents by hand: 120 V over 0.05 ohm is 2.4 kA, over 8 ohm 15 A; 60 A is where a breaker is taken to trip
// at once (common practice, no source).

#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/prober.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;

/// The timer circuit with a contact that is open in defrost between two of its nodes, of which "welded" is 0.05 ohm.
class Bridged {
 public:
  Bridged(std::string_view from, std::string_view to) : appliance_(timer_appliance(0.0)) {
    appliance_.nodes.emplace_back("PE");
    appliance_.supply.earth = appliance_.nodes.size() - 1;
    PlacedPart bridge;
    bridge.id = bridge.title = "bridge";
    bridge.kind = &contact_kind();
    bridge.part = std::make_shared<ContactPart>(position_run);
    bridge.states = {{0, position_defrost}};
    bridge.nodes = {node(from), node(to)};
    appliance_.parts.push_back(std::move(bridge));
    faults_.emplace(appliance_, PriorSettings{});
    prober_.emplace(*faults_, site_as_found(appliance_), meter_, ReadingModel{});
  }
  Bridged(const Bridged&) = delete;
  Bridged& operator=(const Bridged&) = delete;
  ~Bridged() = default;

  /// What is read there with these faults [V or A].
  double shown(const std::vector<std::string>& names, const std::string& test_point) {
    const std::vector<PredictedOutcome>& outcomes = predicted(names, test_point);
    EXPECT_EQ(outcomes.size(), 1U);
    EXPECT_EQ(outcomes.front().form, PredictedOutcome::Form::value);
    const Probe probe = appliance_.test_points[test_point_named(appliance_, test_point)].probe;
    return scale_of(probe).linear_below * std::sinh(outcomes.front().mean);
  }

  const std::vector<PredictedOutcome>& predicted(const std::vector<std::string>& names, const std::string& test_point) {
    for (const Candidate& one : faults_->candidates()) {
      std::vector<std::string> has;
      for (const std::uint16_t fault : one.faults) has.push_back(faults_->name(fault));
      if (has != names || one.outside_cause) continue;
      return prober_->predict(prober_->instances(one).front(), {test_point_named(appliance_, test_point), {}});
    }
    throw std::runtime_error("no such candidate");
  }

 private:
  std::size_t node(std::string_view name) const {
    return static_cast<std::size_t>(std::find(appliance_.nodes.begin(), appliance_.nodes.end(), name) -
                                    appliance_.nodes.begin());
  }

  Appliance appliance_;
  Meter meter_ = exact_meter();
  std::optional<FaultList> faults_;
  std::optional<Prober> prober_;
};

constexpr std::array<const char*, 5> live_points{"D volts", "X volts", "H1 volts", "H2 volts", "heater current"};

TEST(TrippedBreaker, OverTheHeaterTheWholeSupplyAndToEarth) {
  for (const auto& [from, to] :
       {std::pair{"H1", "N"}, std::pair{"L", "N"}, std::pair{"L", "PE"}, std::pair{"R", "N"}}) {
    SCOPED_TRACE(std::string(from) + " to " + to);
    Bridged bridged(from, to);
    EXPECT_NEAR(bridged.shown({}, "D volts"), 120.0 * 32.15 / 32.2, 0.01);
    EXPECT_NEAR(bridged.shown({}, "heater current"), 120.0 / 32.2, 0.001);
    if (std::string_view(from) == "R") continue;  // behind a contact that is open in defrost
    for (const char* point : live_points) EXPECT_EQ(bridged.shown({"bridge.welded"}, point), 0.0) << point;
  }
}

TEST(TrippedBreaker, InABranchThatNothingFeedsNoneTrips) {
  Bridged bridged("R", "N");
  EXPECT_NEAR(bridged.shown({"bridge.welded"}, "D volts"), 120.0 * 32.15 / 32.2, 0.01);
  EXPECT_NEAR(bridged.shown({"bridge.welded"}, "heater current"), 120.0 / 32.2, 0.001);
  EXPECT_EQ(bridged.shown({"run-contact.welded", "bridge.welded"}, "D volts"), 0.0);
}

TEST(TrippedBreaker, WhatALoadDrawsDoesNotTripIt) {
  Bridged bridged("L", "N");
  // The compressor beside the heater: 21 A more, and D is where it was.
  EXPECT_NEAR(bridged.shown({"run-contact.welded"}, "D volts"), 120.0 * 32.15 / 32.2, 0.01);
}

TEST(TrippedBreaker, EveryTestPointSharesOnePrediction) {
  Bridged bridged("L", "N");
  const std::vector<PredictedOutcome>* const one = &bridged.predicted({"bridge.welded"}, "D volts");
  EXPECT_EQ(one, &bridged.predicted({"bridge.welded"}, "X volts"));
  EXPECT_EQ(one, &bridged.predicted({"bridge.welded"}, "heater current"));
}

TEST(TrippedBreaker, OhmsAreReadAllTheSame) {
  Bridged bridged("L", "N");
  EXPECT_NEAR(bridged.shown({"bridge.welded"}, "L-N"), 0.05 * 32.070915 / 32.120915, 1e-6);
}

}  // namespace
}  // namespace ohmwright::locate
