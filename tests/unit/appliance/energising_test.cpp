// Where something shocks, trips or smells burnt: no step has the appliance plugged in before it is known to be sound.

#include <algorithm>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/plan.hpp>

#include "files.hpp"
#include "thorough.hpp"

namespace ohmwright::testing {
namespace {

/// Signs of a leak, a short or of burning: each thoroughly, else one of them.
std::vector<const char*> dangerous() {
  if (!is_thorough()) return {"trips-breaker"};
  return {"shock-from-cabinet", "trips-breaker", "trips-residual-current-device", "hum-or-smell"};
}

Meter basic_meter() {
  return read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"));
}

locate::SearchSettings with_live_steps() {
  locate::SearchSettings settings;
  settings.steps.allow_live = true;
  return settings;
}

bool has_live_points(const Appliance& appliance) {
  return std::any_of(appliance.test_points.begin(), appliance.test_points.end(),
                     [](const TestPoint& point) { return point.probe != Probe::ohms; });
}

bool is_live_step(const Appliance& appliance, const std::optional<locate::Step>& step) {
  return step && step->form == locate::Step::Form::measure && locate::is_live(appliance, step->measurement);
}

/// The first live step from that place on, as words of its test point; "" for none.
std::string live_step_below(const Appliance& appliance, const locate::Plan& plan, std::size_t place) {
  const std::optional<locate::Step>& step = plan.places[place].step;
  if (is_live_step(appliance, step)) return appliance.test_points[step->measurement.test_point].id;
  for (const locate::PlanAnswer& answer : plan.places[place].answers)
    if (std::string found = live_step_below(appliance, plan, answer.next); !found.empty()) return found;
  return {};
}

TEST(Energising, NoPlanGoesOnLiveOnceALeakOrAShortMayHaveBeenRead) {
  const Meter meter = basic_meter();
  std::size_t forbidding = 0;
  for (const std::string& name : shipped_appliances()) {
    if (!missing_kinds(shipped_text(name)).empty()) continue;
    const Appliance appliance = appliance_of(shipped_text(name));
    if (!has_live_points(appliance)) continue;
    for (const char* symptom : dangerous()) {
      locate::Search search(appliance, meter, locate::site_not_measured(appliance, false), with_live_steps());
      search.signs().symptoms.push_back({symptom, true});
      const locate::Plan plan = locate::make_plan(search, {5, 4, 0.02});
      for (const locate::PlanPlace& place : plan.places) {
        if (!place.step || place.step->form != locate::Step::Form::measure) continue;
        const std::optional<double> least = locate::least_to_energise(appliance, place.step->measurement);
        for (const locate::PlanAnswer& answer : place.answers) {
          if (!least || answer.readings.form != locate::SeenReading::Form::between || answer.readings.at >= *least)
            continue;
          ++forbidding;
          EXPECT_EQ(live_step_below(appliance, plan, answer.next), "") << name << ", " << symptom;
        }
      }
    }
  }
  EXPECT_GT(forbidding, 10U);
}

TEST(Energising, NoPlanReadsTheSameThreeTimesRunning) {
  const Meter meter = basic_meter();
  const Appliance appliance = appliance_of(shipped_text("upright-timer-bimetal-120v"));
  for (const char* symptom : dangerous()) {
    locate::Search search(appliance, meter, locate::site_not_measured(appliance, false), with_live_steps());
    search.signs().symptoms.push_back({symptom, true});
    const locate::Plan plan = locate::make_plan(search, {5, 4, 0.02});
    const auto measured = [&](std::size_t place) {
      const std::optional<locate::Step>& step = plan.places[place].step;
      return step && step->form == locate::Step::Form::measure ? std::optional(step->measurement) : std::nullopt;
    };
    for (std::size_t i = 0; i < plan.places.size(); ++i)
      for (const locate::PlanAnswer& answer : plan.places[i].answers)
        for (const locate::PlanAnswer& second : plan.places[answer.next].answers)
          EXPECT_FALSE(measured(i) && measured(answer.next) == measured(i) && measured(second.next) == measured(i))
              << symptom << ": " << appliance.test_points[measured(i)->test_point].id;
  }
}

std::size_t set_up_named(const Appliance& appliance, const std::string& id) {
  const auto found = std::find_if(appliance.set_ups.begin(), appliance.set_ups.end(),
                                  [&](const ohmwright::SetUp& set_up) { return set_up.id == id; });
  EXPECT_NE(found, appliance.set_ups.end()) << id;
  return static_cast<std::size_t>(found - appliance.set_ups.begin());
}

/// OL there, as found.
locate::TakenReading over_range(const Appliance& appliance, const std::string& test_point) {
  const auto found = std::find_if(appliance.test_points.begin(), appliance.test_points.end(),
                                  [&](const TestPoint& point) { return point.id == test_point; });
  EXPECT_NE(found, appliance.test_points.end()) << test_point;
  const auto index = static_cast<std::size_t>(found - appliance.test_points.begin());
  return {{index, {}}, OverRange{}, test_point};
}

/// Whether any step is live after OL at these, a shock having been told of.
bool goes_live_after(const Appliance& appliance, const Meter& meter, std::vector<locate::TakenReading> readings) {
  locate::Search search(appliance, meter, locate::site_not_measured(appliance, false), with_live_steps());
  search.signs().symptoms.push_back({"shock-from-cabinet", true});
  for (locate::TakenReading& reading : readings) search.add(std::move(reading));
  search.think();
  return std::any_of(search.steps().begin(), search.steps().end(),
                     [&](const locate::Step& step) { return is_live_step(appliance, step); });
}

TEST(Energising, OneGoodReadingToEarthClearsNoOtherConductor) {
  const Meter meter = basic_meter();
  // Behind a contact that may be open the wire of the defrost shows neither heater nor fan.
  for (const char* name : {"upright-timer-bimetal-120v", "display-freezer-timer-230v", "upright-shared-neutral-230v"}) {
    const Appliance appliance = appliance_of(shipped_text(name));
    EXPECT_FALSE(goes_live_after(appliance, meter, {})) << name;
    EXPECT_FALSE(goes_live_after(appliance, meter, {over_range(appliance, "harness-to-earth")})) << name;
  }
}

TEST(Energising, WhatWasSeenWholeMayBeReadLive) {
  const Meter meter = basic_meter();
  const Appliance freezer = appliance_of(shipped_text("display-freezer-timer-230v"));
  EXPECT_TRUE(
      goes_live_after(freezer, meter, {over_range(freezer, "harness-to-earth"), over_range(freezer, "run-to-earth")}));
  // With the thermostat chilled, and so closed, the wire shows all that hangs on neutral as well.
  const Appliance upright = appliance_of(shipped_text("upright-timer-bimetal-120v"));
  locate::TakenReading chilled = over_range(upright, "harness-to-earth");
  chilled.measurement.set_up = set_up_named(upright, "chilled");
  EXPECT_TRUE(goes_live_after(upright, meter, {over_range(upright, "harness-to-earth"), chilled}));
}

TEST(Energising, NextAfterAGoodReadingToEarthIsAnother) {
  const Meter meter = basic_meter();
  const Appliance appliance = appliance_of(shipped_text("display-freezer-timer-230v"));
  locate::Search search(appliance, meter, locate::site_not_measured(appliance, false), with_live_steps());
  search.signs().symptoms.push_back({"shock-from-cabinet", true});
  search.add(over_range(appliance, "harness-to-earth"));
  search.think();
  ASSERT_FALSE(search.steps().empty());
  EXPECT_TRUE(locate::is_to_earth(appliance, search.steps().front().measurement));
}

}  // namespace
}  // namespace ohmwright::testing
