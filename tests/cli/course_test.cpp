// A course through the real program: from the set to the marks, and what is refused.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

const std::string passphrase = "OHMWRIGHT_PASSPHRASE=four plain test words";

/// The first class that is shipped with a kind.
std::string first_class_of(const std::string& kind) {
  std::istringstream words(run_program({"ratings", kind}).out);
  std::string name;
  words >> name >> name;  // behind the kind
  return name;
}

class Course : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("ohmwright-course-" + std::to_string(::getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string at(const std::string& name) const { return (folder_ / name).string(); }
  static std::string text(const std::string& path) {
    std::ifstream file(path);
    std::ostringstream all;
    all << file.rdbuf();
    return all.str();
  }
  Ran make(const std::string& to, std::vector<std::string> more = {}) const {
    std::vector<std::string> words{"course", "make",       "upright-thermistor-230v", "--out", at(to),
                                   "--key",  at("the.key")};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words, {passphrase});
  }
  Ran course(std::vector<std::string> words, const std::string& input = {}) const {
    words.insert(words.begin(), "course");
    return run_program(words, {passphrase}, input);
  }

 private:
  std::filesystem::path folder_;
};

TEST_F(Course, TheSameSeedGivesTheSameFilesAgain) {
  ASSERT_EQ(make("one", {"--seed", "5"}).exit_code, 0);
  const std::string key = text(at("the.key"));
  ASSERT_EQ(make("two", {"--seed", "5"}).exit_code, 0);
  EXPECT_EQ(text(at("one/exercise-001.json")), text(at("two/exercise-001.json")));
  EXPECT_EQ(text(at("the.key")), key);
  ASSERT_EQ(make("three", {"--seed", "6"}).exit_code, 0);
  EXPECT_NE(text(at("one/exercise-001.json")), text(at("three/exercise-001.json")));
  const Document document = parse_document(text(at("one/exercise-001.json")), "exercise", course::course_limits());
  EXPECT_TRUE(exercise_schema().problems(document.root).empty());
}

TEST_F(Course, FromTheSetToTheMarks) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const Ran done = course({"practise", exercise, "--student", "Ann: probes"},
                          "unplug\nprove-dead\nmeasure heater-alone lead-off\nlook frost-whole-coil\nend\n");
  EXPECT_EQ(done.exit_code, 0) << done.err;
  EXPECT_THAT(done.out, AllOf(HasSubstr("2 prove-dead: dead"), HasSubstr("3 measure heater-alone lead-off: ")));
  EXPECT_THAT(course({"answer", exercise, "--named", "heater", "--because", "9", "--confidence", "80"}).err,
              HasSubstr("its entries are 1 to 4"));
  EXPECT_EQ(course({"answer", exercise, "--named", "heater.open", "--because", "3", "--confidence", "80"}).exit_code,
            0);
  EXPECT_THAT(course({"practise", exercise, "unplug"}).err, HasSubstr("the answer was given"));
  const Ran marks = course({"grade", at("class"), "--key", at("the.key"), "--feedback"});
  EXPECT_EQ(marks.exit_code, 0) << marks.err;
  EXPECT_THAT(marks.out, AllOf(HasSubstr("exercise-001.record"), HasSubstr("The readings you cited make your answer")));
  const Ran by_hand = course({"grade", at("class"), "--key", at("the.key"), "--format", "csv", "--override",
                              "exercise-001.record=72:showed it at the bench"});
  EXPECT_THAT(by_hand.out, AllOf(HasSubstr(",72.0,"), HasSubstr("showed it at the bench")));
}

TEST_F(Course, OhmsOnALiveCircuitAreOneStepAway) {
  ASSERT_EQ(make("class").exit_code, 0);
  const Ran done = course({"practise", at("class/exercise-001.json"), "measure heater-alone lead-off"});
  EXPECT_EQ(done.exit_code, 1);
  EXPECT_THAT(done.out, AllOf(HasSubstr("STOP"), HasSubstr("arc"), HasSubstr("kill")));
}

TEST_F(Course, AnEditedRecordIsNamed) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  course({"practise", exercise, "unplug", "prove-dead"});
  course({"answer", exercise, "--nothing-wrong", "--confidence", "50"});
  const std::string file = at("class/exercise-001.record");
  std::string record = text(file);
  record.replace(record.find("\"dead\""), 6, "\"LIVE\"");
  std::ofstream(file) << record;
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key")}).out, HasSubstr("EDITED"));
  EXPECT_THAT(course({"practise", exercise, "unplug"}).err, HasSubstr("was edited at entry 2"));
}

TEST_F(Course, RefusesInOneLineWithAWayOn) {
  EXPECT_THAT(make("class", {"--lesson", "one-fault", "--record", "x"}).err,
              HasSubstr("course make takes no --record"));
  EXPECT_THAT(run_program({"course", "make", "upright-thermistor-230v", "--out", at("c"), "--key", at("c/the.key")},
                          {passphrase})
                  .err,
              HasSubstr("would lie among the students' files"));
  EXPECT_THAT(run_program({"course", "make", "upright-thermistor-230v", "--out", at("short"), "--key", at("k")},
                          {"OHMWRIGHT_PASSPHRASE=short"})
                  .err,
              HasSubstr("the passphrase is too short"));
  EXPECT_FALSE(std::filesystem::exists(at("short")));
  ASSERT_EQ(make("class").exit_code, 0);
  EXPECT_THAT(run_program({"course", "grade", at("class"), "--key", at("the.key")}, {passphrase}).err,
              HasSubstr("holds no records"));
  EXPECT_THAT(course({"practice"}).err, HasSubstr("did you mean \"practise\""));
}

TEST_F(Course, AnyKindLiesOnTheTable) {
  for (const char* kind : {"heater", "thermistor", "terminator", "thermal-link", "fan", "defrost-control", "wiring"}) {
    const Ran ran =
        course({"make", kind, "--out", at(kind), "--key", at("the.key"), "--ratings", first_class_of(kind)});
    EXPECT_EQ(ran.exit_code, 0) << kind << ran.err;
  }
  EXPECT_THAT(course({"make", "heater", "--lesson", "healthy", "--out", at("h"), "--key", at("the.key")}).err,
              HasSubstr("a kind makes the lesson one-part alone"));
}

TEST_F(Course, PrintsSheetsSlipsAndAnswers) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const Ran sheet = course({"worksheet", exercise, "--large"});
  EXPECT_THAT(sheet.out,
              AllOf(HasSubstr("<body class=\"large\">"), HasSubstr("How sure are you"), Not(HasSubstr("OL<"))));
  EXPECT_THAT(course({"worksheet", exercise, "--slips"}).out, HasSubstr("fold here and close"));
  EXPECT_THAT(course({"worksheet", exercise, "--answers", "--key", at("the.key")}).out, HasSubstr("At fault"));
}

TEST_F(Course, ALabAsksWhetherTheDoubtCovers) {
  std::ofstream(at("lab.json"))
      << R"({"title": "lab", "parts": [{"tag": "H1", "reference": "32.05 ohm +- 0.05 ohm"}]})";
  std::ofstream(at("readings.csv")) << "student,tag,reading\nAnn,H1,32.3 ohm +- 0.6 ohm\nBen,H1,33 ohm +- 0.1 ohm\n";
  const Ran ran = course({"lab", at("lab.json"), at("readings.csv"), "--format", "csv"});
  // ISO/IEC 17043, E_n = |x - X| / sqrt(U² + U²) (from memory): 0.25/0.60208 = 0.415, 0.95/0.11180 = 8.497.
  EXPECT_THAT(ran.out, AllOf(HasSubstr(",0.415,yes"), HasSubstr(",8.497,no"))) << ran.err;
  std::ofstream(at("bad.csv")) << "student,tag,reading\nAnn,H2,32.3 ohm\nBen,H1,33 ohm\n";
  EXPECT_THAT(course({"lab", at("lab.json"), at("bad.csv")}).err,
              AllOf(HasSubstr(":2: "), HasSubstr("no part tagged"), HasSubstr(":3: "), HasSubstr("states no doubt")));
}

TEST_F(Course, ExplainsWhatEachFaultReads) {
  const Ran ran = course({"explain", "heater", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("OL"), HasSubstr("good"), HasSubstr("What is seen of it")));
}

}  // namespace
}  // namespace ohmwright
