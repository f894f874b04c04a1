#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/answer_classes.hpp>
#include <ohmwright/locate/plan.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

// A plan against its own promises, and against the search that it plans for.

namespace ohmwright::locate {
namespace {

using namespace testing;

class Plans : public ::testing::Test {
 protected:
  Appliance appliance = timer_appliance();
  Meter meter = hand_meter();
  Search search{appliance, meter, site_as_found(appliance), {}};

  /// Where the plan ends for the instance, or nothing where what that would show is in no answer.
  const PlanPlace* followed(const Plan& plan, std::size_t instance) {
    const PlanPlace* place = &plan.places.front();
    while (place->step) {
      const auto& outcomes = search.reasoner().predicted(instance, place->step->measurement);
      const auto likeliest = std::max_element(outcomes.begin(), outcomes.end(),
                                              [](const auto& a, const auto& b) { return a.weight < b.weight; });
      const auto answer = std::find_if(place->answers.begin(), place->answers.end(), [&](const PlanAnswer& one) {
        if (likeliest->form == PredictedOutcome::Form::over_range)
          return one.readings.form == SeenReading::Form::over_range;
        return one.readings.form == SeenReading::Form::between && likeliest->mean >= one.readings.at &&
               likeliest->mean <= one.readings.to;
      });
      if (answer == place->answers.end()) return nullptr;
      place = &plan.places[answer->next];
    }
    return place;
  }
};

TEST_F(Plans, KeepToTheirDepthAndWidth) {
  const Plan plan = make_plan(search, {3, 2, 0.001});
  ASSERT_FALSE(plan.places.empty());
  std::vector<std::size_t> depth(plan.places.size(), 0);
  double minutes = 0.0;
  for (std::size_t i = 0; i < plan.places.size(); ++i) {
    const PlanPlace& place = plan.places[i];
    EXPECT_EQ(place.step.has_value(), !place.answers.empty());
    EXPECT_LE(place.answers.size(), 2U);
    if (place.step) minutes += place.reached * place.step->minutes;
    double sum = 0.0;
    for (const PlanAnswer& answer : place.answers) {
      ASSERT_GT(answer.next, i);
      depth[answer.next] = depth[i] + 1;
      EXPECT_LE(depth[answer.next], 3U);
      EXPECT_NEAR(plan.places[answer.next].reached, place.reached * answer.probability, 1e-12);
      sum += answer.probability;
    }
    EXPECT_LE(sum, 1.0 + 1e-9);
    // The rest are misreadings, and what is too thin for a class of its own.
    EXPECT_TRUE(!place.step || sum > 0.95) << sum;
  }
  EXPECT_NEAR(plan.minutes, minutes, 1e-9);
}

TEST_F(Plans, StartWithTheStepThatTheSearchTakes) {
  search.think();
  const Step first = search.steps().front();
  const Plan plan = make_plan(search);
  EXPECT_EQ(plan.places.front().step->measurement, first.measurement);
}

TEST_F(Plans, LeaveTheSearchAsItWas) {
  search.think();
  const std::vector<double> before = search.diagnosis().parts;
  make_plan(search);
  EXPECT_TRUE(search.readings().empty());
  EXPECT_EQ(search.diagnosis().parts, before);
}

/// Whoever follows the plan with what a fault shows is never told of another part.
TEST_F(Plans, NameTheRightPartOrNone) {
  const Plan plan = make_plan(search, {8, 4, 0.001});
  const FaultList& faults = search.reasoner().faults();
  std::size_t named = 0;
  std::size_t followed_to_an_end = 0;
  for (const Reasoner::Weighed& weighed : search.reasoner().likeliest(100000)) {
    const Candidate& candidate = *search.reasoner().instance(weighed.instance).candidate;
    if (candidate.faults.size() != 1) continue;
    const PlanPlace* end = followed(plan, weighed.instance);
    if (end == nullptr) continue;
    ++followed_to_an_end;
    if (end->standing.form != Standing::Form::likely && end->standing.form != Standing::Form::settled) continue;
    ++named;
    const std::string name = faults.name(candidate.faults[0]);
    if (name == "timer-motor.high" || name.ends_with(".leaks")) continue;  // no reading here shows them
    EXPECT_EQ(end->standing.parts, std::vector<std::size_t>{faults.faults()[candidate.faults[0]].fault.part}) << name;
  }
  EXPECT_GT(followed_to_an_end, 15U);
  EXPECT_GT(named, 10U);
  EXPECT_GT(plan.named, 0.5);
}

TEST_F(Plans, ClassesHoldWhatTheHealthyOneShows) {
  search.think();
  const Measurement measurement{test_point_named(appliance, "H1-H2"), {}};
  const std::vector<AnswerClass> classes = answer_classes(search.reasoner(), measurement, 4);
  const double healthy = scale_of(Probe::ohms).at(31.872513);  // nodal analysis, see prober_test.cpp
  const double open = scale_of(Probe::ohms).at(8000.2);
  double of_healthy = 0.0;
  double of_open = 0.0;
  for (const AnswerClass& row : classes) {
    if (row.readings.form != SeenReading::Form::between) continue;
    EXPECT_LT(row.readings.at, row.readings.to);
    if (row.readings.at <= healthy && healthy <= row.readings.to) of_healthy += row.probability;
    if (row.readings.at <= open && open <= row.readings.to) of_open += row.probability;
  }
  EXPECT_GT(of_healthy, 0.4);
  EXPECT_GT(of_open, 0.05);
  EXPECT_LT(of_open, of_healthy);
}

}  // namespace
}  // namespace ohmwright::locate
