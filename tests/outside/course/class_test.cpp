// A class of 200 students of whom it is known how they work: the marks put them in that order.

#include <array>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/class_table.hpp>
#include <ohmwright/course/copies.hpp>
#include <ohmwright/course/grade.hpp>
#include <ohmwright/course/practice.hpp>

#include "class_room.hpp"
#include "students.hpp"

namespace ohmwright::course {
namespace {

using ::testing::HasSubstr;
using testing::Manner;
using ::testing::Not;

constexpr std::array manners{Manner::careful,    Manner::hasty,  Manner::guessing,
                             Manner::scattering, Manner::unsafe, Manner::editing};
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
  std::printf("means: careful %.1f, hasty %.1f, guessing %.1f, scattering %.1f, unsafe %.1f\n",
              all.mean(Manner::careful), all.mean(Manner::hasty), all.mean(Manner::guessing),
              all.mean(Manner::scattering), all.mean(Manner::unsafe));
  EXPECT_GT(all.mean(Manner::careful), all.mean(Manner::hasty));
  EXPECT_GT(all.mean(Manner::hasty), all.mean(Manner::guessing));
  EXPECT_GT(all.mean(Manner::hasty), all.mean(Manner::scattering));
  EXPECT_GT(all.mean(Manner::guessing), all.mean(Manner::unsafe));
  EXPECT_GT(all.mean(Manner::scattering), all.mean(Manner::unsafe));
  for (const Manner manner : manners)
    for (const Graded& one : all.graded.at(manner)) {
      EXPECT_EQ(one.refused, "");
      EXPECT_EQ(one.was_edited, manner == Manner::editing);
      EXPECT_EQ(one.marks.safety == std::optional(0.0), manner == Manner::unsafe);
      const bool measures = manner != Manner::guessing && manner != Manner::scattering;
      EXPECT_EQ(one.marks.safety.has_value(), measures) << "who never measured was neither safe nor unsafe";
    }
  for (const Graded& one : all.graded.at(Manner::careful))  // they cite all that they read
    EXPECT_TRUE(!one.decided_at || one.marks.part < 1.0 || one.marks.inference == 1.0)
        << "decided, and not yet decided: " << one.words[1];
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

/// A record of a start, a stop and an answer.
std::string small_record(const Exercise& exercise, const std::string& session) {
  std::string text;
  Entry start{.action = "start"};
  start.subject = exercise.name;
  start.file = sha256_text(exercise_text(exercise));
  start.session = session;
  Practice practice(exercise);
  text += record_line(practice.perform(start), text);
  Entry wish{.action = "measure"};
  wish.subject = exercise.places.test_points.front().id;
  wish.leads = exercise.lifts_leads.front() ? "in" : "";
  text += record_line(practice.perform(wish), text);
  Entry answer{.action = "answer"};
  answer.named = {exercise.parts.front().id};
  answer.confidence = 0.5;
  return text + record_line(practice.perform(answer), text);
}

std::string without_last_line(const std::string& text) { return text.substr(0, text.rfind('\n', text.size() - 2) + 1); }

TEST(Class, AShortenedRecordIsMarkedAsSuchOrHasOtherCheckWords) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "short", 1);
  const Exercise& exercise = key.exercises.front().exercise;
  Grader grader(key, testing::registry(), {});
  const std::string whole = small_record(exercise, "00000001");
  const Graded graded = grader.grade(read_record(whole, "a.record"), "a.record");
  ASSERT_EQ(graded.check_words.size(), 2U) << "of the stop and of the answer";
  const std::string cut = without_last_line(whole);
  EXPECT_THAT(grader.grade(read_record(cut, "a.record"), "a.record").refused,
              HasSubstr("not answered: unfinished, or cut short after entry 1"));
  // Cut before the stop and answered anew: nothing in the record tells, the words that were read out do.
  std::string anew = without_last_line(cut);
  Entry answer{.action = "answer"};
  answer.confidence = 0.5;
  anew += record_line(answer, anew);
  const Graded second = grader.grade(read_record(anew, "a.record"), "a.record");
  EXPECT_FALSE(second.was_edited);
  ASSERT_EQ(second.check_words.size(), 1U);
  EXPECT_NE(second.check_words.front(), graded.check_words.front());
  EXPECT_NE(second.check_words.front(), graded.check_words.back());
  EXPECT_THAT(class_csv(std::span(&graded, 1)), HasSubstr(graded.check_words[0] + " " + graded.check_words[1]));
}

TEST(Class, ARecordHandedInTwiceIsNamed) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "twice", 1);
  const Exercise& exercise = key.exercises.front().exercise;
  Grader grader(key, testing::registry(), {});
  const std::string record = small_record(exercise, "00000001");
  std::string of_friend = without_last_line(record);
  Entry answer{.action = "answer"};
  answer.confidence = 0.7;
  of_friend += record_line(answer, of_friend);
  std::vector<Graded> graded{grader.grade(read_record(record, "a"), "a.record"),
                             grader.grade(read_record(record, "b"), "b.record"),
                             grader.grade(read_record(of_friend, "c"), "c.record"),
                             grader.grade(read_record(small_record(exercise, "00000002"), "d"), "d.record")};
  note_copies(graded);
  EXPECT_EQ(graded[0].same_as, "b.record");
  EXPECT_EQ(graded[1].same_as, "a.record");
  EXPECT_EQ(graded[2].same_as, "a.record, up to entry 1");
  EXPECT_EQ(graded[3].same_as, "") << "the same deeds of another student";
}

// Who changed a record that another one wrote has no marks, hears nothing of the answer, and does not make a copy of
// the one that it was made from.
TEST(Class, OfAnEditedRecordTheOriginalIsToldApart) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "twice", 1);
  const Exercise& exercise = key.exercises.front().exercise;
  Grader grader(key, testing::registry(), {});
  const std::string record = small_record(exercise, "00000001");
  std::string edited = record;
  const std::size_t confidence = edited.rfind("0.5");
  ASSERT_NE(confidence, std::string::npos);
  edited.replace(confidence, 3, "0.9");
  std::vector<Graded> graded{grader.grade(read_record(record, "a"), "a.record"),
                             grader.grade(read_record(edited, "b"), "b.record", true)};
  note_copies(graded);
  ASSERT_TRUE(graded[1].was_edited);
  EXPECT_EQ(graded[0].same_as, "");
  EXPECT_EQ(graded[0].copied_by.substr(0, 8), "b.record");
  EXPECT_EQ(graded[1].same_as.substr(0, 8), "a.record");
  EXPECT_FALSE(graded[1].has_marks());
  EXPECT_TRUE(graded[1].time_line.empty());
  for (const std::string& sentence : graded[1].words) EXPECT_THAT(sentence, ::testing::Not(HasSubstr("At fault")));
  EXPECT_THAT(class_csv(graded), HasSubstr(",copied_by,"));
}

TEST(Class, InferenceIsWhatTheCitedReadingsAdded) {
  EXPECT_EQ(inference_mark(0.4, 0.95, 0.95), 1.0);
  EXPECT_EQ(inference_mark(0.4, 0.4, 0.95), 0.0) << "as likely as before: nothing was ruled out";
  EXPECT_EQ(inference_mark(0.4, 0.2, 0.95), 0.0) << "they spoke against it";
  EXPECT_NEAR(inference_mark(0.4, 0.675, 0.95), 0.5, 1e-12);
  EXPECT_EQ(inference_mark(0.3, 0.3, 0.3), 1.0) << "there was no more to be told";
  EXPECT_EQ(inference_mark(0.3, 0.2, 0.3), 0.0);
}

/// A right answer for which one reading is cited that says the same of every fault.
TEST(Class, AReadingThatRulesNothingOutEarnsNothingThoughTheAnswerIsRight) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_fault, "cited", 1);
  const MadeExercise& made = key.exercises.front();
  Grader grader(key, testing::registry(), {});
  double least = 1.0;
  for (const TestPoint& point : made.exercise.places.test_points) {
    if (point.probe != Probe::ohms) continue;
    Practice practice(made.exercise);
    std::string text;
    const auto add = [&](const Entry& entry) { text += record_line(practice.perform(entry), text); };
    Entry start{.action = "start"};
    start.subject = made.exercise.name;
    start.file = sha256_text(exercise_text(made.exercise));
    start.session = "a";
    add(start);
    add(wish_in("unplug"));
    add(wish_in("prove-dead"));
    Entry measure{.action = "measure"};
    measure.subject = point.id;
    const auto place = static_cast<std::size_t>(&point - made.exercise.places.test_points.data());
    measure.leads = made.exercise.lifts_leads[place] ? "off" : "";
    add(measure);
    Entry answer{.action = "answer"};
    answer.named = {made.truth.names.front()};
    answer.because = {3};
    answer.confidence = 0.5;
    add(answer);
    const Graded graded = grader.grade(read_record(text, "a.record"), "a.record");
    EXPECT_EQ(graded.marks.part, 1.0);
    if (graded.followed > 0.02) least = std::min(least, graded.marks.inference);
  }
  EXPECT_LT(least, 0.02) << "its prior probability earned marks";
}

TEST(Class, TheMarkForConfidenceIsBriersOverAllAnswers) {
  // G. W. Brier, Monthly Weather Review 78 (1950) 1-3, equation 2, P = sum over classes of (f - E)^2; here 1 - P/2.
  EXPECT_DOUBLE_EQ(confidence_mark(1.0, true, 11), 1.0);
  EXPECT_DOUBLE_EQ(confidence_mark(1.0, false, 11), 0.0);
  EXPECT_NEAR(confidence_mark(0.8, true, 11), 0.978, 1e-12);  // by hand: 1 - (0.04 + 10 * 0.02^2)/2
  EXPECT_NEAR(confidence_mark(0.0, false, 11), 0.55, 1e-12);  // 1 - (0.9^2 + 9 * 0.1^2)/2: "not this" is no knowledge
  EXPECT_NEAR(confidence_mark(0.7, true, 2), 0.91, 1e-12);    // of two answers 1 - (c - o)^2
  for (const double belief : {0.15, 0.4, 0.75}) {             // proper: nobody gains by stating another than their own
    const auto expected = [&](double stated) {
      return belief * confidence_mark(stated, true, 9) + (1.0 - belief) * confidence_mark(stated, false, 9);
    };
    EXPECT_GT(expected(belief), expected(belief + 0.05));
    EXPECT_GT(expected(belief), expected(belief - 0.05));
  }
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

TEST(Class, ATableHoldsNoFormulaForSpreadsheetsThatSplitElsewhereAndKeepsNumbers) {
  EXPECT_EQ(csv_row({"x;=1+1", "a\t@b", "-1.5", "-1.5 V", "3;4"}), "\"x;'=1+1\",\"a\t'@b\",-1.5,'-1.5 V,\"3;4\"\r\n");
}

TEST(Class, APageEscapesWhatStudentsWrite) {
  Graded one;
  one.file = "<script>a.record";
  one.words = {"<b>"};
  const std::string html = class_html({std::span(&one, 1), {}}, {}, Sentences{UnitPreferences{}}, "");
  EXPECT_THAT(html, Not(HasSubstr("<script>a")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;a.record"));
}

}  // namespace
}  // namespace ohmwright::course
