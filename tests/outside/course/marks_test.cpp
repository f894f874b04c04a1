// Marks that follow the readings: of a good appliance, of a fault named against them, of citing none.

#include <algorithm>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/quantity/error.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::place_of;
using testing::shipped;

/// A record of what a student does.
class Deeds {
 public:
  explicit Deeds(const Exercise& exercise) : practice_(exercise) {
    Entry start{.action = "start"};
    start.subject = exercise.name;
    start.file = sha256_text(exercise_text(exercise));
    start.session = "a";
    add(start);
  }
  void add(const Entry& wish) {
    text_ += record_line(practice_.perform(wish), text_);
    if (wish.action == "measure" || wish.action == "look") because_.push_back(practice_.entries() - 1);
  }
  void answer(const std::vector<std::string>& named, double confidence) {
    Entry answer{.action = "answer"};
    answer.named = named;
    answer.because = because_;
    answer.confidence = confidence;
    add(answer);
  }
  Record record() const { return read_record(text_, "a.record"); }

 private:
  Practice practice_;
  std::string text_;
  std::vector<std::size_t> because_;
};

/// All that can be found out: the live readings first, then every look, then ohms with the plug out.
void do_everything(const Exercise& exercise, Deeds& deeds) {
  for (const bool ohms : {false, true}) {
    if (ohms) {
      for (const Look& look : exercise.looks) deeds.add(wish_in("look " + look.id));
      deeds.add(wish_in("unplug"));
      deeds.add(wish_in("prove-dead"));
    }
    for (const auto& [place, shown] : exercise.readings) {
      const TestPoint& point = exercise.places.test_points[place_of(exercise.places.test_points, place.test_point)];
      const bool is_live_set_up =
          !place.set_up.empty() && exercise.places.set_ups[place_of(exercise.places.set_ups, place.set_up)].live;
      if ((point.probe == Probe::ohms) != ohms || (ohms && is_live_set_up)) continue;
      Entry wish{.action = "measure"};
      wish.subject = place.test_point;
      wish.set_up = place.set_up;
      wish.leads = place.leads_in ? "in" : "off";
      if (!exercise.lifts_leads[place_of(exercise.places.test_points, place.test_point)]) wish.leads.clear();
      wish.live_agreed = !ohms;
      deeds.add(wish);
    }
  }
}

TEST(Marks, WhoCitesAllThereIsForTheTruthHasReasonedWell) {
  const CourseKey key = testing::made_key("front-loader-230v", Lesson::one_fault, "all", 6);
  Grader grader(key, testing::registry(), {});
  for (const MadeExercise& made : key.exercises) {
    Deeds deeds(made.exercise);
    do_everything(made.exercise, deeds);
    deeds.answer(made.truth.names, 0.9);
    const Graded graded = grader.grade(deeds.record(), "a.record");
    EXPECT_GT(graded.marks.inference, 0.98) << made.truth.names.front() << ": " << made.exercise.complaint;
    EXPECT_TRUE(graded.decided_at) << made.truth.names.front();
  }
}

TEST(Marks, WhoFindsAGoodApplianceGoodByAllThereIsHasReasonedWell) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::healthy, "fair", 4);
  Grader grader(key, testing::registry(), {});
  for (const MadeExercise& made : key.exercises) {
    Deeds deeds(made.exercise);
    do_everything(made.exercise, deeds);
    deeds.answer({}, 0.9);
    const Graded graded = grader.grade(deeds.record(), "a.record");
    EXPECT_FALSE(graded.was_edited);
    EXPECT_GT(graded.marks.inference, 0.9) << made.exercise.complaint;
    EXPECT_GE(graded.marks.inference + 1e-3, std::min(1.0, graded.followed / made.truth.tellable));
  }
}

// A name that came out right says nothing of whoever gave it for no reason.
TEST(Marks, WhoIsRightByLuckIsToldSo) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "luck", 1);
  const MadeExercise& made = key.exercises.front();
  Grader grader(key, testing::registry(), {});
  Deeds deeds(made.exercise);
  deeds.answer(made.truth.names, 0.9);
  const Graded graded = grader.grade(deeds.record(), "a.record");
  EXPECT_EQ(graded.marks.part, 1.0);
  EXPECT_EQ(graded.marks.inference, 0.0);
  EXPECT_THAT(graded.words, ::testing::Contains(HasSubstr("right by luck")));
  EXPECT_THAT(graded.words, ::testing::Not(::testing::Contains(HasSubstr("Right. "))));
  EXPECT_THAT(graded.words, ::testing::Not(::testing::Contains(HasSubstr("fits how it came out"))));
}

/// A heater on the table with that fault.
MadeExercise heater_with(const std::string& fault, CourseKey& key) {
  const Appliance appliance = shipped("upright-thermistor-230v");
  const CourseSecret secret(testing::passphrase, "heater");
  Workshop workshop(appliance, key.meter, secret);
  for (std::uint64_t index = 0; index < 40; ++index) {
    MadeExercise made = workshop.make({Lesson::one_part, index, place_of(appliance.parts, "heater")});
    if (made.truth.names == std::vector<std::string>{fault}) return made;
  }
  throw InputError("no heater with " + fault + " was drawn");
}

Graded graded_for(const std::string& named, const std::string& point, const CourseKey& key, Grader& grader) {
  const Exercise& exercise = key.exercises.front().exercise;
  Deeds deeds(exercise);
  deeds.add(wish_in("measure " + point));
  deeds.answer({named}, 0.9);
  return grader.grade(deeds.record(), "a.record");
}

TEST(Marks, AFaultThatOnesOwnReadingsRuleOutIsNotRight) {
  CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "named", 1);
  key.exercises = {heater_with("heater.open", key)};
  Grader grader(key, testing::registry(), {});
  const Graded wrong = graded_for("heater.short", "lead-1-to-lead-2", key, grader);
  EXPECT_EQ(wrong.marks.part, 0.5) << "the part is at fault, but not so";
  EXPECT_LT(wrong.marks.inference, 0.1) << "OL is no short";
  EXPECT_LT(wrong.marks.confidence, 0.5);
  EXPECT_THAT(wrong.words.front(), AllOf(HasSubstr("rule heater.short out"), Not(HasSubstr("Right."))));
  const Graded right = graded_for("heater.open", "lead-1-to-lead-2", key, grader);
  EXPECT_EQ(right.marks.part, 1.0);
  EXPECT_EQ(right.marks.inference, 1.0);
  EXPECT_THAT(right.words.front(), HasSubstr("Right."));
  EXPECT_EQ(graded_for("heater", "lead-1-to-lead-2", key, grader).marks.part, 1.0)
      << "a part alone can be no more wrong";
  // Nothing from a lead to the frame says nothing of how the element is: a rare fault is no worse a guess than before.
  const Graded guess = graded_for("heater.burnt-joint", "lead-1-to-frame", key, grader);
  EXPECT_EQ(guess.marks.part, 1.0);
  EXPECT_THAT(guess.words.front(), HasSubstr("do not tell from it"));
}

TEST(Marks, CitingNoReadingIsSaidSo) {
  CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "cites", 1);
  Grader grader(key, testing::registry(), {});
  const Exercise& exercise = key.exercises.front().exercise;
  std::string text;
  Practice practice(exercise);
  const auto add = [&](const Entry& entry) { text += record_line(practice.perform(entry), text); };
  Entry start{.action = "start"};
  start.subject = exercise.name;
  start.file = sha256_text(exercise_text(exercise));
  add(start);
  add(wish_in("unplug"));
  Entry joining{.action = "join"};
  joining.students = {"Bo: writes"};
  add(joining);
  Entry answer{.action = "answer"};
  answer.named = {exercise.parts.front().id};
  answer.because = {1};
  answer.confidence = 0.5;
  answer.students = {"Cy"};
  add(answer);
  const Graded graded = grader.grade(read_record(text, "a.record"), "a.record");
  EXPECT_THAT(graded.words, ::testing::Contains(HasSubstr("None of the entries you cited is a reading")));
  EXPECT_EQ(graded.students, (std::vector<std::string>{"Bo: writes", "Cy"}));
  EXPECT_FALSE(graded.was_edited);
}

}  // namespace
}  // namespace ohmwright::course
