// A class of 200 students of whom it is known how they work: the marks put them in that order.

#include <array>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/class_table.hpp>
#include <ohmwright/course/grade.hpp>

#include "class_room.hpp"
#include "students.hpp"

namespace ohmwright::course {
namespace {

using ::testing::HasSubstr;
using testing::Manner;
using ::testing::Not;

constexpr std::array manners{Manner::careful, Manner::hasty, Manner::guessing, Manner::unsafe, Manner::editing};
constexpr std::size_t class_size = 200;
constexpr std::size_t exercise_count = 20;

struct Class {
  std::map<Manner, std::vector<Graded>> graded;

  double mean(Manner manner) const {
    double sum = 0.0;
    for (const Graded& one : graded.at(manner)) sum += one.total;
    return sum / static_cast<double>(graded.at(manner).size());
  }
};

Class marked_class() {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::mixed, "class", exercise_count);
  const Bench bench = bench_of(read_appliance(parse_document(key.appliance_text, "appliance"), testing::registry()));
  Reasoning reasoning(bench, key.meter);
  Grader grader(key, testing::registry(), {});
  ReproducibleStream stream(200);
  Class all;
  for (std::size_t i = 0; i < class_size; ++i) {
    const Manner manner = manners[i % manners.size()];
    const MadeExercise& made = key.exercises[i / manners.size() % exercise_count];
    const std::string record = testing::record_of(manner, made, bench, reasoning, stream);
    all.graded[manner].push_back(grader.grade(read_record(record, "a.record"), "a.record"));
  }
  return all;
}

TEST(Class, IsPutInOrderByItsMarks) {
  const Class all = marked_class();
  std::printf("means: careful %.1f, hasty %.1f, guessing %.1f, unsafe %.1f\n", all.mean(Manner::careful),
              all.mean(Manner::hasty), all.mean(Manner::guessing), all.mean(Manner::unsafe));
  EXPECT_GT(all.mean(Manner::careful), all.mean(Manner::hasty));
  EXPECT_GT(all.mean(Manner::hasty), all.mean(Manner::guessing));
  EXPECT_GT(all.mean(Manner::guessing), all.mean(Manner::unsafe));
  for (const Manner manner : manners)
    for (const Graded& one : all.graded.at(manner)) {
      EXPECT_EQ(one.refused, "");
      EXPECT_EQ(one.was_edited, manner == Manner::editing);
      EXPECT_EQ(one.marks.safety == 0.0, manner == Manner::unsafe);
    }
  for (const Graded& one : all.graded.at(Manner::editing)) {
    EXPECT_EQ(one.total, 0.0);
    EXPECT_THAT(one.words.front(), HasSubstr("was changed"));
  }
}

TEST(Class, ARecordOfNonsenseHoldsNobodyUp) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "nonsense", 1);
  Grader grader(key, testing::registry(), {});
  std::string text;
  Entry entry{.action = "start"};
  entry.subject = key.exercises.front().exercise.name;
  text += record_line(entry, text);
  entry = Entry{.action = "measure"};
  entry.subject = key.exercises.front().exercise.places.test_points.front().id;
  entry.set_up = "on the moon";
  entry.range = "auto";
  entry.shown = "many ohms";
  text += record_line(entry, text);
  entry = Entry{.action = "answer"};
  entry.named = {"nobody.knows"};
  entry.because = {1, 99};
  text += record_line(entry, text);
  const Graded graded = grader.grade(read_record(text, "a.record"), "a.record");
  EXPECT_TRUE(graded.was_edited);
  EXPECT_EQ(graded.total, 0.0);
}

TEST(Class, ANameIsNoFormula) {
  Graded one;
  one.file = "=HYPERLINK(\"x\")";
  one.students = {"+49 calls", "Ann, who reads"};
  one.note = "@cmd";
  const std::string csv = class_csv(std::span(&one, 1));
  EXPECT_THAT(csv, HasSubstr("\r\n\"'=HYPERLINK(\"\"x\"\")\",\"'+49 calls; Ann, who reads\""));
  EXPECT_THAT(csv, HasSubstr("'@cmd"));
}

TEST(Class, APageEscapesWhatStudentsWrite) {
  Graded one;
  one.file = "<script>a.record";
  one.words = {"<b>"};
  const std::string html = class_html(std::span(&one, 1), {}, Sentences{UnitPreferences{}}, "");
  EXPECT_THAT(html, Not(HasSubstr("<script>a")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;a.record"));
}

}  // namespace
}  // namespace ohmwright::course
