// What somebody finds who looks at everything, asks the owner, and measures nothing.

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/drawn_looks.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/locate/signs.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

// Ohm's law: a current needs volts. The heater's second lead lies at the neutral, its first at the line's side.
TEST(Looks, ALeakBesideTheNeutralTripsSeldom) {
  const Appliance appliance = testing::shipped(testing::timer_appliance);
  const locate::FaultList faults(appliance, {});
  const auto trips = [&](const std::string& fault) {
    locate::Signs tripped;
    tripped.symptoms.push_back({"trips-residual-current-device", true});
    for (const locate::Candidate& candidate : faults.candidates())
      if (candidate.faults.size() == 1 && !candidate.outside_cause && faults.name(candidate.faults.front()) == fault)
        return locate::likelihood_of_signs(faults, candidate, tripped, {});
    return -1.0;
  };
  EXPECT_GT(trips("heater.leaks-to-frame"), 0.7);
  EXPECT_GT(trips("heater.leaks-in-the-middle"), 0.7);
  EXPECT_LT(trips("heater.leaks-at-the-other-end"), 0.2);
  EXPECT_GT(trips("heater.leaks-at-the-other-end"), 0.0);
}

struct Tally {
  double surest = 0.0;        ///< highest probability that the looks give a truth
  std::size_t right = 0;      ///< of guesses that name what the looks make most probable
  std::size_t exercises = 0;  ///< all of them
  std::size_t bare = 0;       ///< exercises in which nothing is to be seen
};

/// What the engine would guess that knows the looks and no reading.
std::vector<std::size_t> guess(const Bench& bench, const Reasoning& reasoning, const locate::Diagnosis& diagnosis) {
  std::vector<std::size_t> best;  // no part is at fault
  double most = reasoning.probability_of(diagnosis, best);
  for (std::size_t part = 0; part < bench.appliance.parts.size(); ++part) {
    const double probability = reasoning.probability_of(diagnosis, std::vector{part});
    if (probability <= most) continue;
    most = probability;
    best = {part};
  }
  return best;
}

Tally tally_of(const std::string& appliance, Lesson lesson, std::size_t count) {
  const CourseKey key = testing::made_key(appliance, lesson, "looks", count);
  const Bench bench = bench_of(read_appliance(parse_document(key.appliance_text, appliance), testing::registry()));
  Reasoning reasoning(bench, key.meter);
  Tally tally;
  for (const MadeExercise& made : key.exercises) {
    const std::vector<Look>& looks = made.exercise.looks;
    locate::Signs signs;
    for (const Look& look : looks) signs.symptoms.push_back({look.id, look.seen});
    if (std::none_of(looks.begin(), looks.end(), [](const Look& look) { return look.seen; })) ++tally.bare;
    const locate::Diagnosis diagnosis = reasoning.after({}, signs);
    const std::vector<std::size_t> truth = parts_of(made.truth.faults);
    tally.surest = std::max(tally.surest, reasoning.probability_of(diagnosis, truth));
    if (guess(bench, reasoning, diagnosis) == truth) ++tally.right;
    ++tally.exercises;
  }
  return tally;
}

class Looks : public ::testing::TestWithParam<const char*> {};

TEST_P(Looks, LeaveSomethingToMeasure) {
  for (const Lesson lesson : {Lesson::one_fault, Lesson::healthy}) {
    const Tally tally = tally_of(GetParam(), lesson, 6);
    RecordProperty(std::string(name_of(lesson)), std::to_string(tally.right) + " of " +
                                                     std::to_string(tally.exercises) + " guessed without a reading");
    EXPECT_LE(tally.surest, most_told_by_looks) << name_of(lesson);
    EXPECT_EQ(tally.bare, 0U) << name_of(lesson) << ": a healthy one always shows something, so this one is not";
  }
}

INSTANTIATE_TEST_SUITE_P(Shipped, Looks,
                         ::testing::Values("upright-thermistor-230v", "dishwasher-230v", "front-loader-230v"));

TEST(LooksAlone, DecideWhereOnePartIsAllThatCanFail) {
  // Looks tell nothing there that was not known before: such an appliance has exercises all the same.
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_part, "alone", 2);
  EXPECT_EQ(key.exercises.size(), 2U);
}

}  // namespace
}  // namespace ohmwright::course
