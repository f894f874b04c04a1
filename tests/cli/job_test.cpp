// One service call through the program: the book, the rules of closing, what merges, and what people may type.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

/// A folder with a book of its own.
class JobCall : public ::testing::Test {
 protected:
  JobCall() {
    std::string name = "/tmp/ohmwright-job-XXXXXX";
    folder_ = ::mkdtemp(name.data());
  }
  ~JobCall() override { std::filesystem::remove_all(folder_); }

  Ran run(std::vector<std::string> words, const std::string& input = {}) const {
    words.insert(words.begin(), "job");
    return run_program(words, {"XDG_DATA_HOME=" + folder_, "LOGNAME=tester"}, input);
  }
  /// Runs what must be done.
  std::string done(const std::vector<std::string>& words) const {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exit_code, 0) << words[0] << ": " << ran.err;
    return ran.out;
  }
  std::string refused(const std::vector<std::string>& words) const {
    const Ran ran = run(words);
    EXPECT_EQ(ran.exit_code, 2) << words[0] << ": " << ran.out;
    EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
    return ran.err;
  }
  nlohmann::json report() const {
    const Ran ran = run({"report", "--format", "json"});
    const Document document = parse_document(ran.out, "report", {.text_bytes = 8192, .control_characters = true});
    for (const Problem& problem : job_report_schema().problems(document.root))
      ADD_FAILURE() << problem.pointer << ": " << problem.text;
    return nlohmann::json::parse(ran.out);
  }

  std::string folder_;
};

TEST_F(JobCall, GoesFromComplaintToRecord) {
  done({"open", "Freezer warm", "--complaint", "milk is warm", "--appliance", "upright-timer-bimetal-120v", "--symptom",
        "frost-whole-coil", "--answer", "tingles=no", "--answer", "room=24C"});
  EXPECT_THAT(run({"next"}).out, AllOf(HasSubstr("Before you touch it"), HasSubstr("ohmwright job sign --looked ")));
  EXPECT_THAT(run({"card"}).out, HasSubstr("type: "));
  EXPECT_THAT(run({"why"}).out, HasSubstr("what is in doubt"));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("has no part replaced; say with --because what was repaired"));
  const Ran bad = run({"read", "heater-alone=OL"});
  EXPECT_EQ(bad.exit_code, 1) << bad.err;
  EXPECT_THAT(bad.out, AllOf(HasSubstr("OUT OF SPEC"), HasSubstr("Possible faults now")));
  EXPECT_THAT(run({"find"}).out, HasSubstr("Defrost heater"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("Defrost heater was replaced, and its insulation was not read since"),
                    HasSubstr("earth bond was not read")));
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr("no forced defrost while"));
  EXPECT_EQ(run({"read", "heater", "insulation=>200M", "--test", "500V", "--proved-dead"}).exit_code, 3);
  done({"verify", "--earth-bond", "0.12ohm"});
  EXPECT_EQ(run({"read", "heater", "32", "--lead-off"}).exit_code, 0);
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended"}), HasSubstr("--live-agreed"));
  done({"verify", "--forced-defrost", "ended", "--live-agreed"});
  done({"close", "repaired", "--call-back", "2026-12-01"});
  EXPECT_THAT(refused({"read", "heater-alone=32", "--job", "1"}), HasSubstr("is closed"));
  const nlohmann::json json = report();
  EXPECT_EQ(json["state"], "repaired");
  EXPECT_EQ(json["readings"].size(), 3U);
  EXPECT_EQ(json["readings"][0]["outcome"], "out-of-limits");
  EXPECT_EQ(json["replaced"][0]["equivalence"], "undecided") << "how it is built is not stated";
  EXPECT_EQ(json["replaced"][0]["new"], "heater-450w-120v");
  EXPECT_EQ(json["call_back"], "2026-12-01");
  EXPECT_TRUE(json["open_points"].empty());
  EXPECT_FALSE(json["cautions"].empty());
  for (const nlohmann::json& caution : json["cautions"]) EXPECT_NE(caution["source"], "") << caution["id"];
  EXPECT_GT(json["possible_before"].size(), 1U);
  EXPECT_THAT(run({"report"}).out, AllOf(HasSubstr("What was wrong"), HasSubstr("Cautions that were shown")));
}

TEST_F(JobCall, RefusesALiveReadingWithoutAYesAndRecordsTheYes) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost=118"}), HasSubstr("--live-agreed"));
  EXPECT_EQ(run({"read", "volts-heater@forced-defrost=118", "--live-agreed"}).exit_code, 0);
  EXPECT_THAT(report()["notes"].dump(), HasSubstr("agreed to the caution of the live step volts-heater"));
}

TEST_F(JobCall, RefusesAPartThatIsNoEquivalentUnlessToldWhy) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const std::string refusal = refused({"replace", "heater", "--new", "heater-180w-230v"});
  EXPECT_THAT(refusal, AllOf(HasSubstr("no equivalent of Defrost heater"), HasSubstr("--because")));
  done({"replace", "heater", "--new", "heater-180w-230v", "--because", "for one night"});
  EXPECT_EQ(report()["replaced"][0]["because"], "for one night");
}

TEST_F(JobCall, KeepsAReadingThatIsEnteredLaterWithItsTime) {
  done({"open", "a"});
  EXPECT_EQ(run({"read", "heater", "32", "--lead-off", "--ratings", "heater-450w-120v", "--time", "2026-01-02 03:04"})
                .exit_code,
            0);
  EXPECT_EQ(report()["readings"][0]["time"], "2026-01-02T03:04:00.000Z");
  EXPECT_THAT(refused({"note", "n", "--time", "2999-01-01 00:00"}), HasSubstr("still to come"));
  EXPECT_THAT(refused({"note", "n", "--time", "2026-02-30 10:00"}), HasSubstr("--time takes"));
}

TEST_F(JobCall, TakesBackWhatWasWrong) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  done({"correct", "last", "--because", "wrong lead"});
  EXPECT_TRUE(report()["readings"].empty());
  EXPECT_THAT(run({"show"}).out, AllOf(HasSubstr("(taken back)"), HasSubstr("wrong lead")));
  EXPECT_THAT(refused({"correct", "ffff0000"}), HasSubstr("has no entry"));
}

TEST_F(JobCall, NamesWhatItDoesNotKnow) {
  EXPECT_THAT(refused({"list"}), HasSubstr("is not there yet"));
  EXPECT_THAT(refused({"opne", "a"}), HasSubstr("did you mean \"open\""));
  EXPECT_THAT(refused({"open"}), HasSubstr("missing: TITLE"));
  EXPECT_THAT(refused({"open", "a", "--earth-bond", "1"}), HasSubstr("job open does not take --earth-bond"));
  EXPECT_THAT(refused({"open", "a", "--bogus"}), HasSubstr("unknown option"));
  EXPECT_FALSE(std::filesystem::exists(folder_ + "/ohmwright/jobs.db")) << "what is refused begins no book";
  done({"open", "a"});
  EXPECT_THAT(refused({"next"}), HasSubstr("the job has no appliance"));
  done({"sign", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"sign", "--symptom", "frost-whole-coll"}), HasSubstr("did you mean \"frost-whole-coil\""));
  EXPECT_THAT(refused({"sign", "--cannot-reach", "nowhere"}), HasSubstr("has no test point"));
  EXPECT_THAT(refused({"read", "heater-alon=OL"}), HasSubstr("did you mean \"heater-alone\""));
  EXPECT_THAT(refused({"show", "77"}), HasSubstr("no job \"77\""));
}

TEST_F(JobCall, ExportsAndImportsWithoutLossOrDoubles) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  done({"open", "b"});
  const std::string file = folder_ + "/all.jsonl";
  done({"export", "--out", file});
  const std::string other = folder_ + "/other.db";
  EXPECT_THAT(done({"import", file, "--book", other}), HasSubstr("2 jobs, 4 entries; 0 were there"));
  EXPECT_THAT(done({"import", file, "--book", other}), HasSubstr("0 jobs, 0 entries; 4 were there"));
  EXPECT_EQ(done({"export", "--book", other}), done({"export"}));
  EXPECT_THAT(done({"check", "--book", other}), HasSubstr("sound: 2 jobs"));
}

/// Script, SQL, quotes, escapes of a terminal, text that turns around, line feeds.
const std::string hostile_text =
    "<script>alert('x')</script>\"'; DROP TABLE entry; --\x1b[31mred\nohmwright: all is well\u202e\u009b2J";

TEST_F(JobCall, TakesHostileTextForTextEverywhere) {
  const std::string& bad = hostile_text;
  done({"open", bad, "--complaint", bad, "--answer", "tried=" + bad, "--answer", "refrigerant=" + bad, "--who", bad});
  done({"note", bad});
  done({"wait", "part", "--because", bad});
  done({"visit"});
  done({"replace", "heater", "--new", "unknown", "--because", bad});
  done({"close", "declined", "--because", bad, "--call-back", bad});
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"list"}, {"show", "1"}, {"report"}, {"list", "--width", "40"}}) {
    const std::string out = run(words).out;
    for (const char* raw : {"\x1b[31m", "\u202e", "\u009b", "\nohmwright: all"})
      EXPECT_THAT(out, Not(HasSubstr(raw))) << words[0];
  }
  const std::string html = run({"report", "--format", "html"}).out;
  EXPECT_THAT(html, AllOf(Not(HasSubstr("<script")), HasSubstr("&lt;script&gt;"), HasSubstr("default-src 'none'")));
  EXPECT_THAT(html, AllOf(Not(HasSubstr("\x1b")), Not(HasSubstr("\u202e"))));
  EXPECT_EQ(report()["title"], bad);
  EXPECT_THAT(done({"check"}), HasSubstr("sound: 1 jobs"));
  for (const std::vector<std::string>& words : {std::vector<std::string>{"read", bad},
                                                {"sign", "--symptom", bad},
                                                {"show", bad},
                                                {"correct", bad},
                                                {"import", "./" + bad}})
    EXPECT_THAT(refused(words), Not(HasSubstr("\x1b"))) << words[0];
  EXPECT_THAT(refused({"note", "--job", "1", "\xff"}), HasSubstr("no UTF-8"));
}

TEST_F(JobCall, RefusesAMegabyteOfTextInALine) {
  const Ran ran = run({}, std::string(1U << 20U, 'x') + "\n");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("a text of 1048576 bytes is too long"));
  EXPECT_THAT(run({"list"}).out, HasSubstr("No such job"));
}

TEST_F(JobCall, IsRightAtFortyColumns) {
  done({"open", "Freezer warm", "--appliance", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil"});
  run({"read", "heater-alone=OL"});
  for (const std::vector<std::string>& words : {std::vector<std::string>{"card"},
                                                {"next", "--width", "40"},
                                                {"list", "--width", "40"},
                                                {"report", "--width", "40"}}) {
    std::istringstream lines(run(words).out);
    for (std::string line; std::getline(lines, line);) {
      const auto columns = std::count_if(line.begin(), line.end(),
                                         [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
      const bool one_word = line.find_first_of(' ', line.find_first_not_of(' ')) == std::string::npos;
      EXPECT_TRUE(columns <= 40 || one_word) << words[0] << ": " << line;
    }
  }
}

}  // namespace
}  // namespace ohmwright
