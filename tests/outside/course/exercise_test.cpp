// What a student's file says, and what it keeps to itself.

#include <algorithm>
#include <regex>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/course/bench.hpp>
#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/quantity/error.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

using testing::made_key;

/// The file with all that measuring, looking and asking its owner would find taken out, and its name. Its rows keep
/// their order.
std::string without_readings(const std::string& file) {
  std::string text = std::regex_replace(file, std::regex("\"shown\": \"[^\"]*\""), "\"shown\": \"\"");
  text = std::regex_replace(text, std::regex("\"seen\": \"[^\"]*\""), "\"seen\": \"\"");
  text = std::regex_replace(text, std::regex("\"complaint\": \"[^\"]*\""), "\"complaint\": \"\"");
  return std::regex_replace(text, std::regex("\"exercise\": \"[0-9a-f]{10}\""), "\"exercise\": \"\"");
}

TEST(Exercise, NothingButReadingsTellsOneFaultFromAnother) {
  std::set<std::string> rests;
  std::set<std::size_t> lengths;
  std::set<std::size_t> lengths_of_complaints;
  std::set<std::string> complaints;
  std::set<std::string> truths;
  std::set<std::string> names;
  for (const Lesson lesson : {Lesson::one_fault, Lesson::two_faults, Lesson::healthy}) {
    const CourseKey key = made_key(testing::timer_appliance, lesson, "leak", 4);
    for (const MadeExercise& made : key.exercises) {
      const std::string file = exercise_text(made.exercise);
      rests.insert(without_readings(file));
      lengths.insert(file.size());
      lengths_of_complaints.insert(made.exercise.complaint.size());
      complaints.insert(made.exercise.complaint);
      names.insert(made.exercise.name);
      std::string truth;
      for (const std::string& name : made.truth.names) truth += name + " ";
      truths.insert(truth);
    }
  }
  EXPECT_GE(truths.size(), 4U) << "too few faults to compare";
  EXPECT_EQ(rests.size(), 1U) << "two files differ elsewhere than in what is shown";
  EXPECT_EQ(lengths.size(), 1U) << "the length of a file depends on its fault";
  EXPECT_EQ(lengths_of_complaints.size(), 1U) << "what the owner says has a length of its own";
  EXPECT_GE(complaints.size(), 3U) << "every owner says the same";
  EXPECT_EQ(names.size(), 4U) << "names follow from passphrase, set and index; here three sets share theirs";
}

TEST(Exercise, AnAppliancesLooksAreItsOwn) {
  const auto has_frost = [](const std::string& appliance) {
    const CourseKey key = made_key(appliance, Lesson::one_fault, "own", 1);
    const std::vector<Look>& looks = key.exercises.front().exercise.looks;
    EXPECT_FALSE(looks.empty()) << appliance;
    return std::any_of(looks.begin(), looks.end(), [](const Look& look) {
      return std::regex_search(look.id + ' ' + look.title, std::regex("frost|coil|cabinet is|compressor|[Ff]ood"));
    });
  };
  for (const char* dry : {"vented-dryer-230v", "drum-dryer-230v", "dishwasher-230v", "dishwasher-120v",
                          "front-loader-230v", "built-in-oven-230v"})
    EXPECT_FALSE(has_frost(dry)) << dry;
  EXPECT_TRUE(has_frost(testing::timer_appliance));
}

TEST(Exercise, ReadsBackAsItWasWritten) {
  const CourseKey key = made_key(testing::timer_appliance, Lesson::one_fault, "round", 1);
  const std::string file = exercise_text(key.exercises.front().exercise);
  EXPECT_EQ(exercise_text(read_exercise(parse_document(file, "exercise", course_limits()))), file);
  const CourseKey again = read_key(key_text(key), "key");
  EXPECT_EQ(key_text(again), key_text(key));
}

TEST(Exercise, OnePartLiesOnTheTable) {
  const CourseKey key = made_key("upright-thermistor-230v", Lesson::one_part, "table", 6);
  for (const MadeExercise& made : key.exercises) {
    EXPECT_EQ(made.exercise.parts.size(), 1U);
    EXPECT_LE(made.truth.names.size(), 1U);
    for (const TestPoint& point : made.exercise.places.test_points) EXPECT_EQ(point.probe, Probe::ohms);
    EXPECT_TRUE(made.exercise.looks.empty()) << "a part alone has no compartment to look into";
    Practice practice(made.exercise);
    const Entry read = practice.perform(wish_in("measure " + made.exercise.places.test_points[0].id + " lead-off"));
    EXPECT_TRUE(read.hazards.empty()) << "it is plugged in nowhere";
    EXPECT_NE(read.shown, "");
    EXPECT_THROW(practice.perform(wish_in("plug-in")), InputError);
  }
}

TEST(Exercise, TellsHowWarmItIsAsFoundAndAfterEachSetUp) {
  const auto temperatures = [](const std::vector<ZoneShown>& zones) {
    std::string all;
    for (const ZoneShown& shown : zones) all += shown.zone + "=" + shown.temperature + ";";
    return all;
  };
  const CourseKey table = made_key("upright-thermistor-230v", Lesson::one_part, "warm", 1);
  const Exercise& part = table.exercises.front().exercise;
  EXPECT_EQ(temperatures(part.as_found), "the table=21.0 °C ± 1.0 K;");
  ASSERT_GE(part.after_set_up.size(), 3U);
  EXPECT_THAT(temperatures(part.after_set_up[0]), ::testing::HasSubstr("=0.00 °C ± 0.20 K;"));
  const CourseKey whole = made_key("upright-thermistor-230v", Lesson::one_fault, "warm", 2);
  const Exercise& appliance = whole.exercises.front().exercise;
  EXPECT_EQ(appliance.as_found.size(), whole.exercises.back().exercise.as_found.size());
  EXPECT_EQ(temperatures(appliance.as_found), temperatures(whole.exercises.back().exercise.as_found));
  EXPECT_THAT(temperatures(appliance.as_found), ::testing::HasSubstr("sensor"));
  const Exercise again = read_exercise(parse_document(exercise_text(appliance), "exercise", course_limits()));
  EXPECT_EQ(temperatures(again.as_found), temperatures(appliance.as_found));
  EXPECT_EQ(again.after_set_up.size(), appliance.places.set_ups.size());
}

TEST(Exercise, EveryShippedApplianceKeepsToTheMostValues) {
  for (const char* name : {"upright-timer-bimetal-120v", "upright-thermistor-230v", "combination-two-evaporators-230v",
                           "dishwasher-230v", "vented-dryer-230v"}) {
    const CourseKey key = made_key(name, Lesson::one_fault, "size", 1);
    const Exercise& exercise = key.exercises.front().exercise;
    EXPECT_LE(exercise.readings.size() * exercise.repeats, most_values) << name;
    EXPECT_EQ(key.exercises.front().truth.names.size(), 1U) << name;
  }
}

TEST(Exercise, TheSameSeedGivesTheSameBytesWithEveryCompiler) {
  // Made once by the g++ build; a build by clang++ must make the same.
  const CourseKey key = made_key(testing::timer_appliance, Lesson::mixed, "bytes", 3);
  std::string all;
  for (const MadeExercise& made : key.exercises) all += exercise_text(made.exercise);
  EXPECT_EQ(sha256_text(all), "ff84f2461d62cfb8dcaf5bafc8d8cc9f16f9b1eaaed46dff4acdb200e7035aaf");
  EXPECT_EQ(sha256_text(key_text(key)), "bb5ccadbfcd03d97cdb91d309458490b870e0ed5b89079b64814cecae2a85167");
}

}  // namespace
}  // namespace ohmwright::course
