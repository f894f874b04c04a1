// A course through the real program: from the set to the marks, and what is refused.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <thread>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::ContainsRegex;
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
  Ran make(const std::string& to, std::vector<std::string> more = {}, const std::string& key = "the.key") const {
    std::vector<std::string> words{"course", "make", "upright-thermistor-230v", "--out", at(to), "--key", at(key)};
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
  ASSERT_EQ(make("two", {"--seed", "5"}, "two.key").exit_code, 0);
  EXPECT_EQ(text(at("one/exercise-001.json")), text(at("two/exercise-001.json")));
  EXPECT_EQ(text(at("two.key")), key);
  ASSERT_EQ(make("three", {"--seed", "6"}, "three.key").exit_code, 0);
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
  const Ran help = course({"practise", exercise, "--record", at("other.record")}, "help\nunplug\n");
  EXPECT_THAT(help.out, AllOf(HasSubstr("live-agreed"), HasSubstr("in-circuit"), HasSubstr("quit"),
                              HasSubstr("heater.open"), HasSubstr("--nothing-wrong")));
  const Ran slip = course({"practise", exercise, "--record", at("other.record"), "prove-dead", "bogus"});
  EXPECT_EQ(slip.exit_code, 2);
  EXPECT_THAT(slip.out, HasSubstr("Recorded in")) << "what went before it is recorded, and where";
  const Ran marks = course({"grade", at("class"), "--key", at("the.key"), "--feedback"});
  EXPECT_EQ(marks.exit_code, 0) << marks.err;
  EXPECT_THAT(marks.out, AllOf(HasSubstr("exercise-001.record"), HasSubstr("The readings you cited make your answer"),
                               HasSubstr("What your readings said, one after another"), HasSubstr("Likeliest now: ")));
  const Ran by_hand = course({"grade", at("class"), "--key", at("the.key"), "--format", "csv", "--override",
                              "exercise-001.record=72:showed it at the bench"});
  EXPECT_THAT(by_hand.out, AllOf(HasSubstr(",72.0,"), HasSubstr("showed it at the bench")));
  std::ofstream(at("by-hand.txt")) << "exercise-001.record=64:in a file\n";
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key"), "--override", at("by-hand.txt")}).out,
              HasSubstr("in a file"));
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key"), "--override", "nobody=7:x"}).err,
              HasSubstr("there is no record \"nobody\" whose total --override could set"));
  std::ofstream(at("weights.json")) << R"({"part": 60, "confidence": 40})";
  EXPECT_THAT(
      course({"grade", at("class"), "--key", at("the.key"), "--weights", at("weights.json"), "--format", "html"}).out,
      HasSubstr("part 60, good parts 0, safety 0, confidence 40, inference 0, minutes 0"));
  std::ofstream(at("nothing.json")) << R"({"part": 0})";
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key"), "--weights", at("nothing.json")}).err,
              HasSubstr("no mark has a weight"));
}

TEST_F(Course, TakesAnAnswerHoweverItIsTyped) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const Ran done = course({"practise", exercise}, "unplug\nProve dead\nMeasure Heater-Alone lead-off\nend\n");
  EXPECT_THAT(done.out, AllOf(HasSubstr("2 prove-dead: dead"), HasSubstr("3 measure heater-alone lead-off: ")))
      << done.err;
  EXPECT_THAT(course({"answer", exercise, "--named", "heater", "--because", "3", "--confidence", "0.9"}).err,
              HasSubstr("for 90 % write 90"));
  for (const char* entries : {"3-1", "1--3"})
    EXPECT_THAT(course({"answer", exercise, "--named", "heater", "--because", entries, "--confidence", "90"}).err,
                HasSubstr("--because takes"));
  EXPECT_EQ(course({"answer", exercise, "--named", "Heater.Open", "--because", "#1 - 2, 3", "--confidence", "99,5"})
                .exit_code,
            0);
  EXPECT_THAT(text(at("class/exercise-001.record")),
              AllOf(HasSubstr("\"named\":[\"heater.open\"]"), HasSubstr("\"because\":[1,2,3]"), HasSubstr("0.995")));
}

TEST_F(Course, MarksTakeThePlaceOfNothingThatTheyAreMadeFrom) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  ASSERT_EQ(course({"practise", exercise, "--student", "Ann: probes"}, "unplug\nend\n").exit_code, 0);
  std::ofstream(at("weights.json")) << R"({"part": 60, "confidence": 40})";
  std::ofstream(at("by-hand.txt")) << "exercise-001.record=64:in a file\n";
  std::ofstream(at("words.txt")) << "four plain test words\n";
  for (const char* file : {"the.key", "class/exercise-001.record", "class/exercise-001.json", "weights.json",
                           "by-hand.txt", "words.txt"}) {
    const std::string before = text(at(file));
    const Ran ran = course({"grade", at("class"), "--key", at("the.key"), "--weights", at("weights.json"), "--override",
                            at("by-hand.txt"), "--passphrase-file", at("words.txt"), "--out", at(file)});
    EXPECT_EQ(ran.exit_code, 2) << file;
    EXPECT_THAT(ran.err, HasSubstr("--out would overwrite")) << file;
    EXPECT_EQ(text(at(file)), before);
  }
}

TEST_F(Course, NoOtherKeyAndNoOtherExercisesAreOverwritten) {
  ASSERT_EQ(make("class", {"--seed", "1"}).exit_code, 0);
  const std::string key = text(at("the.key"));
  const Ran same_key = make("class2", {"--seed", "2"});
  EXPECT_EQ(same_key.exit_code, 2);
  EXPECT_THAT(same_key.err, AllOf(HasSubstr("the key of another class"), HasSubstr("name another with --key")));
  EXPECT_EQ(text(at("the.key")), key);
  EXPECT_THAT(make("class", {"--seed", "2"}, "second.key").err, HasSubstr("of another set; name another folder"));
  EXPECT_FALSE(std::filesystem::exists(at("second.key")));
}

TEST_F(Course, WhatASetIsMadeOfMakesItsNames) {
  const auto name_of_first = [&](const std::string& folder, std::vector<std::string> more) {
    EXPECT_EQ(make(folder, std::move(more), folder + ".key").exit_code, 0) << folder;
    const Document document =
        parse_document(text(at(folder + "/exercise-001.json")), "exercise", course::course_limits());
    return course::read_exercise(document).name;
  };
  const std::string heater = name_of_first("h", {"--lesson", "one-part", "--part", "heater"});
  EXPECT_NE(heater, name_of_first("t", {"--lesson", "one-part", "--part", "sensor"}));
  EXPECT_NE(heater, name_of_first("c", {"--lesson", "one-part", "--part", "heater", "--course", "north school"}));
  EXPECT_THAT(make("x", {"--part", "heater"}, "x.key").err, HasSubstr("--lesson one-part alone"));
}

TEST_F(Course, TwoWhoWorkOnOneRecordLoseNothing) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const std::string record = at("two.record");
  constexpr int notes = 12;
  std::vector<std::string> of_a{"practise", exercise, "--record", record};
  std::vector<std::string> of_b = of_a;
  for (int i = 0; i < notes; ++i) {
    of_a.push_back("note a" + std::to_string(i));
    of_b.push_back("note b" + std::to_string(i));
  }
  std::thread other([&] { EXPECT_EQ(course(of_b).exit_code, 0); });
  EXPECT_EQ(course(of_a).exit_code, 0);
  other.join();
  std::ofstream(record, std::ios::app) << R"({"entry":{"do":"no)";  // a crash in the midst of an entry
  EXPECT_EQ(course({"practise", exercise, "--record", record, "unplug"}).exit_code, 0);
  const course::Record read = course::read_record(text(record), record);
  EXPECT_EQ(read.entries.size(), 2U + 2U * notes) << "a start, both people's notes, and what came after the crash";
  EXPECT_FALSE(read.broken_at);
}

TEST_F(Course, WhoComesLaterIsNamedInTheRecord) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  ASSERT_EQ(course({"practise", exercise, "--student", "Ann: probes", "unplug", "prove-dead"}).exit_code, 0);
  ASSERT_EQ(course({"practise", exercise, "--student", "Bo: writes", "--student", "Ann: probes", "note x"}).exit_code,
            0);
  ASSERT_EQ(course({"practise", exercise, "--student", "Bo: writes", "note y"}).exit_code, 0);
  const course::Record record = course::read_record(text(at("class/exercise-001.record")), "record");
  ASSERT_EQ(record.entries.size(), 6U) << "a start, two deeds, who joined, once, and two notes";
  EXPECT_EQ(record.entries[3].action, "join");
  EXPECT_EQ(record.entries[3].students, std::vector<std::string>{"Bo: writes"});
  ASSERT_EQ(course({"answer", exercise, "--nothing-wrong", "--confidence", "50", "--student", "Cy"}).exit_code, 0);
  const Ran marks = course({"grade", at("class"), "--key", at("the.key")});
  EXPECT_THAT(marks.out, HasSubstr("Ann: probes; Bo: writes; Cy")) << marks.err;
}

/// What cannot read what is asked is refused before anything is made.
TEST_F(Course, RefusesAMeterThatReadsNoOhms) {
  for (const char* meter : {"clamp", "insulation-tester"}) {
    const Ran table = run_program({"course", "make", "heater", "--ratings", first_class_of("heater"), "--meter", meter,
                                   "--out", at("class"), "--key", at("the.key")},
                                  {passphrase});
    EXPECT_EQ(table.exit_code, 2) << meter;
    EXPECT_THAT(table.err, AllOf(HasSubstr("reads no ohms"), HasSubstr("leave --meter away"))) << meter;
    EXPECT_EQ(make("class", {"--meter", meter}).exit_code, 2) << meter;
    EXPECT_FALSE(std::filesystem::exists(at("class"))) << meter;
  }
}

TEST_F(Course, TheBenchAnswersInTheReadersLanguage) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const Ran done = course({"practise", exercise, "--interactive", "--language", "es"},
                          "look frost-whole-coil\nunplug\nprove-dead\nmeasure heater-alone\nbogus\nquit\n");
  EXPECT_THAT(done.out,
              AllOf(HasSubstr("prove-dead: sin tensión"), HasSubstr("diga lead-off"), HasSubstr("el banco no conoce"),
                    HasSubstr("El propietario dice"), Not(HasSubstr("Who owns it says"))))
      << done.err;
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key"), "--language", "es"}).out,
              AllOf(HasSubstr("sin responder"), Not(HasSubstr("not answered"))));
  EXPECT_THAT(course({"explain", "run-capacitor", "--ratings", "run-10uf", "--language", "es"}).out,
              AllOf(HasSubstr("El tambor no gira"), Not(HasSubstr("drum"))));
}

TEST_F(Course, OhmsOnALiveCircuitAreOneStepAway) {
  ASSERT_EQ(make("class").exit_code, 0);
  const Ran done = course({"practise", at("class/exercise-001.json"), "measure heater-alone lead-off"});
  EXPECT_EQ(done.exit_code, 1);
  EXPECT_THAT(done.out, AllOf(HasSubstr("STOP"), HasSubstr("arc"), HasSubstr("kill"), HasSubstr("Check word")));
}

/// Nobody gains by giving no answer after the stop, and the instructor is told.
TEST_F(Course, WhoIsStoppedAndGivesNoAnswerIsUnsafeAllTheSame) {
  ASSERT_EQ(make("class", {"--count", "3"}).exit_code, 0);
  course({"practise", at("class/exercise-001.json"), "measure heater-alone lead-off"});
  const auto graded = [&](const char* format) {
    return course({"grade", at("class"), "--key", at("the.key"), "--format", format}).out;
  };
  EXPECT_THAT(graded("text"), AllOf(HasSubstr("UNSAFE; not answered"),
                                    HasSubstr("No record was handed in of exercise-002, exercise-003")));
  EXPECT_THAT(graded("html"), AllOf(HasSubstr("<p>No record was handed in of exercise-002, exercise-003"),
                                    HasSubstr("<th>total</th><th>remark</th>")));
  EXPECT_THAT(course({"grade", at("class"), "--key", at("the.key"), "--feedback"}).out,
              AllOf(HasSubstr("UNSAFE"), HasSubstr("arc")));
  EXPECT_THAT(graded("csv"), AllOf(HasSubstr(",refused,unsafe\r\n"), HasSubstr(",0.000,"), HasSubstr(",yes\r\n")));
  EXPECT_THAT(graded("html"), AllOf(HasSubstr("UNSAFE"), HasSubstr("arc")));
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
    const Ran ran = course(
        {"make", kind, "--out", at(kind), "--key", at(std::string(kind) + ".key"), "--ratings", first_class_of(kind)});
    EXPECT_EQ(ran.exit_code, 0) << kind << ran.err;
    const Document made =
        parse_document(text(at(std::string(kind) + "/exercise-001.json")), kind, course::course_limits());
    EXPECT_TRUE(exercise_schema().problems(made.root).empty()) << kind;
    EXPECT_TRUE(course::read_exercise(made).on_the_table) << kind;
  }
  EXPECT_THAT(course({"make", "defrost-control", "--count", "12", "--out", at("d"), "--key", at("d.key")}).err,
              HasSubstr("name --ratings; there are: "));
  EXPECT_THAT(course({"make", "heater", "--lesson", "healthy", "--out", at("h"), "--key", at("the.key")}).err,
              HasSubstr("a kind makes the lesson one-part alone"));
}

TEST_F(Course, PrintsSheetsSlipsAndAnswers) {
  ASSERT_EQ(make("class").exit_code, 0);
  const std::string exercise = at("class/exercise-001.json");
  const Ran spanish = course({"worksheet", exercise, "--language", "es"});
  EXPECT_THAT(spanish.out, AllOf(HasSubstr("<html lang=\"es\">"), HasSubstr("Puntos de prueba"),
                                 HasSubstr("¿Qué lecturas descartaron las demás?"), Not(HasSubstr("Which readings"))));
  EXPECT_THAT(course({"practise", exercise, "--record", at("es.record"), "--language", "es"}, "help\nunplug\n").out,
              AllOf(HasSubstr("Lo que puede decir"), HasSubstr("Registrado en "), HasSubstr("Desenchufe el aparato"),
                    Not(HasSubstr("Unplug the appliance"))));
  const Ran sheet = course({"worksheet", exercise, "--large"});
  EXPECT_THAT(sheet.err, HasSubstr("the sheet has no circuit; --appliance NAME"));
  EXPECT_THAT(sheet.out, AllOf(HasSubstr("Set-ups"), HasSubstr("What you can look at"), HasSubstr("<td>25</td>"),
                               HasSubstr("<html lang=\"en\">")));
  EXPECT_THAT(course({"worksheet", exercise, "--appliance", "vented-dryer-230v"}).err,
              HasSubstr("name the appliance that it was made from"));
  EXPECT_THAT(sheet.out,
              AllOf(HasSubstr("<body class=\"large\">"), HasSubstr("How sure are you"), Not(HasSubstr("OL<"))));
  EXPECT_THAT(run_program({"course", "explain", "defrost-sensor", "--format", "html", "--language", "es"}).out,
              HasSubstr("<html lang=\"es\">"));
  EXPECT_THAT(course({"worksheet", exercise, "--slips"}).out, HasSubstr("fold the hatched half over the readings"));
  EXPECT_THAT(course({"worksheet", exercise, "--answers", "--key", at("the.key")}).out, HasSubstr("At fault"));
}

TEST_F(Course, ALabAsksWhetherTheDoubtCovers) {
  std::ofstream(at("lab.json"))
      << R"({"title": "lab", "parts": [{"tag": "H1", "reference": "32.05 ohm +- 0.05 ohm"}]})";
  std::ofstream(at("readings.csv")) << "student,tag,reading\nAnn,H1,32.3 ohm +- 0.6 ohm\nBen,H1,33 ohm +- 0.1 ohm\n";
  const Ran ran = course({"lab", at("lab.json"), at("readings.csv"), "--format", "csv"});
  // ISO/IEC 17043, E_n = |x - X| / sqrt(U² + U²) (from memory): 0.25/0.60208 = 0.415, 0.95/0.11180 = 8.497.
  EXPECT_THAT(ran.out, AllOf(HasSubstr(",0.415,yes"), HasSubstr(",8.497,no"))) << ran.err;
  std::ofstream(at("one-bad.csv")) << "student,tag,reading\nAnn,H1,32.3 ohm +- 0.6 ohm\nBen,H1,33 ohm\n"
                                   << "Ann,H1,33 ohm +- 0.1 ohm\n";
  std::ofstream(at("live.json")) << R"({"title": "lab", "parts": [{"tag": "O1", "reference": "230 V +- 1 V"}]})";
  EXPECT_THAT(course({"lab", at("live.json"), at("readings.csv")}).err, HasSubstr("mains are no exercise"));
  const Ran one_bad = course({"lab", at("lab.json"), at("one-bad.csv")});
  EXPECT_EQ(one_bad.exit_code, 0) << "one bad line holds nobody up";
  EXPECT_THAT(one_bad.out,
              AllOf(HasSubstr("line 3: "), HasSubstr("states no doubt"), HasSubstr("Ann             2     50")));
  // Mean 32.65 ohm and standard deviation 0.7/sqrt(2) = 0.495 ohm, by hand.
  EXPECT_THAT(one_bad.out, AllOf(HasSubstr("32.65 Ω"), HasSubstr("0.49 Ω")));
  std::ofstream(at("bad.csv")) << "student,tag,reading\nAnn,H2,32.3 ohm\nBen,H1,33 ohm\n";
  EXPECT_THAT(course({"lab", at("lab.json"), at("bad.csv")}).err,
              AllOf(HasSubstr(":2: "), HasSubstr("no part tagged"), HasSubstr(":3: "), HasSubstr("states no doubt")));
}

/// Five times the largest difference of the class says little; a kilohm in place of an ohm is no such difference.
TEST_F(Course, ALabIsNotLedAstrayByOneSlipOfAThousand) {
  std::ofstream(at("lab.json"))
      << R"({"title": "lab", "parts": [{"tag": "H1", "reference": "32.05 ohm +- 0.05 ohm"}]})";
  std::ofstream(at("slip.csv")) << "student,tag,reading\nAnn,H1,32.3 ohm +- 0.6 ohm\nBen,H1,32.2 ohm +- 60 ohm\n"
                                << "Cid,H1,31.9 ohm +- 0.6 ohm\nFay,H1,32.3 kohm +- 0.6 kohm\n";
  const Ran ran = course({"lab", at("lab.json"), at("slip.csv"), "--width", "120"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("covers, but says little"), HasSubstr("far from the rest"),
                             HasSubstr("Ben             1     50"), HasSubstr("Fay             1      0")));
  // Mean of 32.3, 32.2 and 31.9 ohm, by hand.
  EXPECT_THAT(ran.out, HasSubstr("32.13 Ω"));
}

TEST_F(Course, ALabOfTwoPartsUnderOneTagIsRefused) {
  std::ofstream(at("lab.json")) << R"({"title": "lab", "parts": [
  {"tag": "H1", "reference": "32.05 ohm +- 0.05 ohm"},
  {"tag": "h1", "reference": "48 ohm +- 0.05 ohm", "lower": "50 ohm", "upper": "45 ohm"}]})";
  std::ofstream(at("readings.csv")) << "student,tag,reading\nAnn,H1,32.3 ohm +- 0.6 ohm\n";
  const Ran ran = course({"lab", at("lab.json"), at("readings.csv")});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, AllOf(HasSubstr("lab.json:3: /parts/1/tag: another part has this tag"),
                             HasSubstr("lab.json:3: /parts/1/upper: expected an upper limit that is not below")));
}

/// Some editors put a byte order mark before the first word, which nobody types.
TEST_F(Course, APassphraseFileOpensWhatWasTypedWithoutItsMark) {
  std::ofstream(at("words.txt")) << "\xEF\xBB\xBF"
                                 << "four plain test words\n";
  ASSERT_EQ(make("class").exit_code, 0);
  const Ran ran = course({"worksheet", at("class/exercise-001.json"), "--answers", "--key", at("the.key"),
                          "--passphrase-file", at("words.txt")});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
}

TEST_F(Course, ALabTakesTheTablesOfASpreadsheet) {
  std::ofstream(at("lab.json"))
      << R"({"title": "lab", "parts": [{"tag": "H1", "reference": "32.05 ohm +- 0.05 ohm"}]})";
  std::ofstream(at("comma.csv")) << "Student;Tag;Reading;Conditions\r\nAnn;h1;32,3 ohm ± 0,6 ohm;\r\n";
  const Ran ran = course({"lab", at("lab.json"), at("comma.csv"), "--format", "csv"});
  EXPECT_THAT(ran.out, HasSubstr("Ann,H1,32.3,0.6,")) << ran.err;
}

TEST_F(Course, ExplainsNothingThatItDoesNotKnow) {
  const std::string page = course({"explain", "heater"}).out;
  EXPECT_THAT(page, HasSubstr("not known without ratings"));
  const std::string rated = course({"explain", "heater", "--ratings", "heater-450w-120v"}).out;
  EXPECT_THAT(rated, Not(HasSubstr("not known")));
}

TEST_F(Course, ExplainsWhatEachFaultReads) {
  const Ran ran = course({"explain", "heater", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("OL"), HasSubstr("good"), HasSubstr("What is seen of it")));
  EXPECT_THAT(course({"explain", "heater"}).out, HasSubstr("name --ratings;"));
  const std::string capacitor = course({"explain", "run-capacitor", "--ratings", "run-10uf"}).out;
  EXPECT_THAT(capacitor, AllOf(HasSubstr("What a good one reads"), HasSubstr("Capacitance: "), HasSubstr("µF")));
  const std::string bimetal = course({"explain", "terminator", "--ratings", "opens-13", "--width", "200"}).out;
  EXPECT_THAT(bimetal, AllOf(HasSubstr("in salted ice"), Not(HasSubstr("salted-ice")), Not(HasSubstr("history-")),
                             Not(HasSubstr("link-1"))))
      << "its terminals have no link";
  // 3.8 kohm at 25 °C are 3741.4 ohm at 21 °C, copper (234.5 from memory), ±10 %; 20 kohm is where such a coil is open.
  const std::string valve = course({"explain", "inlet-valve", "--ratings", "valve-230v-3k8"}).out;
  EXPECT_THAT(valve, AllOf(HasSubstr("Resistance of the coil, at 21.0 °C: 3.367 kΩ to 4.116 kΩ"),
                           Not(HasSubstr("20.00 kΩ at most"))));
}

/// A picture for each fault that changes a reading, each with words for who does not see it.
TEST_F(Course, DrawsWhatEachFaultDoes) {
  const std::string axis = course({"explain", "thermistor", "--ratings", "ntc-10k-b3977", "--format", "html"}).out;
  const std::string states = course({"explain", "door-switch", "--format", "html", "--ratings", "door-10a"}).out;
  EXPECT_THAT(axis, AllOf(HasSubstr("<figcaption>open sensor or lead</figcaption><img src=\"data:image/svg+xml"),
                          HasSubstr("alt=\"open sensor or lead; at "), HasSubstr(": OL, a good one ")));
  EXPECT_THAT(states, HasSubstr("<figcaption>")) << states.substr(0, 300);
}

/// An exercise has the words of the language that it was made in, and its sheet is made in any.
TEST_F(Course, MakesAnExerciseInSpanishAndItsSheetInEither) {
  ASSERT_EQ(make("clase", {"--language", "es"}).exit_code, 0);
  const std::string exercise = at("clase/exercise-001.json");
  for (const char* language : {"es", "en"}) {
    const Ran sheet = course({"worksheet", exercise, "--appliance", "upright-thermistor-230v", "--language", language});
    EXPECT_EQ(sheet.exit_code, 0) << sheet.err;
    EXPECT_THAT(sheet.out, HasSubstr("Vertical sin escarcha, termistor y placa de control, 230 V"));
  }
}

/// What is read with the lead off and in circuit stands side by side, so that a slip is no longer than a page.
TEST_F(Course, ASlipHasOneRowForEachSetUp) {
  ASSERT_EQ(make("class").exit_code, 0);
  EXPECT_THAT(course({"worksheet", at("class/exercise-001.json"), "--slips"}).out,
              HasSubstr("<th>lead off</th><th>in circuit</th>"));
}

// The figures of the kind's limits: a bridged wire has 0.5 ohm to nine tenths of 35.56 (assumed), a leak along the wire
// a tenth of 28.22 ohm to 1 Mohm to the frame, and the wire itself stays as long as it was.
TEST_F(Course, ExplainsAFaultOverItsWholeRange) {
  const std::string page = course({"explain", "heater", "--ratings", "heater-450w-120v", "--width", "200"}).out;
  // 28.22 to 35.56 ohm is a good one (IEC 60335-1's +5 % and -10 % of the power, and the alloy); the rest is the
  // kind's.
  const std::string there = "\n    at 21.0 °C ± 1.0 K: ";
  EXPECT_THAT(page, HasSubstr("  good" + there + "28.2 Ω to 35.6 Ω;"));
  EXPECT_THAT(page, HasSubstr("part of its wire bridged" + there + "0.50 Ω to 32 Ω;"));
  EXPECT_THAT(page, HasSubstr("leaks to the frame, along its wire" + there + "28.2 Ω to 35.6 Ω;"));
  EXPECT_THAT(page, HasSubstr("leaks to the frame, along its wire" + there + "2.8 Ω to 1.0 MΩ;"));
  EXPECT_THAT(page, HasSubstr("comes and goes: a break in it that closes again" + there + "28 Ω to 10 kΩ / OL;"));
  EXPECT_THAT(page,
              AllOf(HasSubstr("in salted ice, -15.0 °C ± 2.0 K: "), HasSubstr("in warm water, 40.0 °C ± 1.0 K: ")));
}

// 1081.8 ohm at 21 °C (IEC 60751: 1 + 3.9083e-3 t - 5.775e-7 t²), ±1 K and class B (0.3 K + 0.005 |t|) at 3.88 ohm a
// kelvin, by hand: 1076.4 to 1087.3 ohm, which two digits would not tell from any other.
TEST_F(Course, ExplainsWithAsManyDigitsAsTellSomething) {
  const std::string page = course({"explain", "thermistor", "--ratings", "pt1000-class-b", "--width", "200"}).out;
  EXPECT_THAT(page, HasSubstr("good\n    at 21.0 °C ± 1.0 K: 1.076 kΩ to 1.087 kΩ;"));
  const std::string fan = course({"explain", "fan-motor", "--ratings", "shaded-pole-120v", "--width", "200"}).out;
  EXPECT_THAT(fan, AllOf(Not(HasSubstr("capacitor")), Not(HasSubstr("electronics")), Not(HasSubstr("signal")),
                         HasSubstr("30 mA")));
  const std::string motor = course({"explain", "drive-motor", "--ratings", "capacitor-run-230v"}).out;
  EXPECT_THAT(motor, Not(HasSubstr("tacho")));
}

}  // namespace
}  // namespace ohmwright
