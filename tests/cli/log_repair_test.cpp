// Logs before and after a repair, through the real program.

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <string_view>
#include <unistd.h>
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "made_logs.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using testing::Defrosts;
using testing::freezer;
using ::testing::HasSubstr;
using testing::Lasting;
using testing::Ran;
using testing::run_program;
using testing::widest_line;

class Repair : public ::testing::Test {
 protected:
  Repair() { std::filesystem::create_directories(folder_); }
  ~Repair() override { std::filesystem::remove_all(folder_); }

  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name) << text;
    return (folder_ / name).string();
  }
  Ran compared(Defrosts before, Defrosts after, std::vector<std::string> words = {}) const {
    words.insert(words.begin(), {"log", "--before", file("before.csv", freezer(before)), "--after",
                                 file("after.csv", freezer(after))});
    return run_program(words);
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("ohmwright-repair-" + std::to_string(getpid()));
};

TEST_F(Repair, IsProvedWhereTheFaultIsGone) {
  const Ran ran = compared(Defrosts::never, Defrosts::well);
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("THE FAULT IS GONE"), HasSubstr("Gone. Whether it defrosts."),
                             HasSubstr("Defrosts a day"), HasSubstr("What is still unproved")));
}

TEST_F(Repair, IsNoneWhereTheFaultStaysOrAnotherCame) {
  const Ran stays = compared(Defrosts::until_the_time_limit, Defrosts::until_the_time_limit);
  EXPECT_EQ(stays.exit_code, 1);
  EXPECT_THAT(stays.out, AllOf(HasSubstr("THERE IS STILL A FAULT"), HasSubstr("Still there. What ends the defrosts.")));
  const Ran other = compared(Defrosts::well, Defrosts::until_the_time_limit);
  EXPECT_EQ(other.exit_code, 1);
  EXPECT_THAT(other.out, AllOf(HasSubstr("A FAULT CAME"), HasSubstr("New. What ends the defrosts.")));
}

TEST_F(Repair, IsNotProvedByALogThatIsTooShort) {
  const std::string whole = freezer(Defrosts::well);
  const std::string first_hours = whole.substr(0, whole.find("2026-03-02 08:00"));
  const Ran ran = run_program(
      {"log", "--before", file("before.csv", freezer(Defrosts::never)), "--after", file("after.csv", first_hours)});
  EXPECT_EQ(ran.exit_code, 3) << ran.out;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NOT PROVED YET"), HasSubstr("0 whole defrosts"), HasSubstr("log for longer")));
}

TEST_F(Repair, SaysTheSameToProgramsAndOnAPage) {
  const Ran json = compared(Defrosts::never, Defrosts::well, {"--format", "json"});
  const auto problems = log_comparison_schema().problems(parse_document(json.out, "repair").root);
  EXPECT_TRUE(problems.empty()) << (problems.empty() ? "" : problems[0].text);
  EXPECT_EQ(nlohmann::json::parse(json.out)["verdict"], "within-limits");
  const Ran html = compared(Defrosts::never, Defrosts::well, {"--format", "html"});
  EXPECT_THAT(html.out, AllOf(HasSubstr("<h1>THE FAULT IS GONE</h1>"), HasSubstr("<th>before</th>")));
}

TEST_F(Repair, FitsANarrowScreen) {
  for (const int width : {40, 80}) {
    const Ran ran = compared(Defrosts::until_the_time_limit, Defrosts::well, {"--width", std::to_string(width)});
    EXPECT_LE(widest_line(ran.out), width);
  }
}

TEST_F(Repair, NeedsTwoLogs) {
  const std::string one = file("one.csv", freezer(Defrosts::well));
  EXPECT_THAT(run_program({"log", "--before", one}).err, HasSubstr("--before needs --after beside it"));
  EXPECT_THAT(run_program({"log", "--before", one, "--after", one}).err, HasSubstr("name one log"));
  EXPECT_THAT(run_program({"log", one, "--before", one, "--after", "other.csv"}).err, HasSubstr("leave out"));
  EXPECT_THAT(run_program({"log"}).err, HasSubstr("missing: FILE, or --before FILE --after FILE"));
}

TEST_F(Repair, AndNoLogIsOverwrittenByItsReport) {
  const std::string one = file("one.csv", freezer(Defrosts::well));
  EXPECT_THAT(run_program({"log", one, "--out", one}).err, HasSubstr("--out would overwrite"));
  EXPECT_THAT(run_program({"log", "--before", one, "--after", file("two.csv", "x"), "--out", one}).err,
              HasSubstr("--out would overwrite what --before reads"));
}

// Two defrosts in two weeks: the timer died after the first day.
TEST_F(Repair, IsNotProvedWhereDefrostsStopAgain) {
  const std::string stopped = file("stopped.csv", freezer(Defrosts::well, {14, 1300, Lasting::To::never_defrosts}));
  const Ran alone = run_program({"log", stopped, "--appliance", "upright-timer-bimetal-120v", "--line", "118V"});
  EXPECT_EQ(alone.exit_code, 1) << alone.out;
  EXPECT_THAT(alone.out, AllOf(HasSubstr("and then none in"), HasSubstr("--symptom no-defrost")));
  const Ran ran = run_program({"log", "--before", file("before.csv", freezer(Defrosts::never)), "--after", stopped});
  EXPECT_EQ(ran.exit_code, 1) << ran.out;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("THERE IS STILL A FAULT"), HasSubstr("Still there. Whether it defrosts.")));
}

TEST_F(Repair, IsNotProvedByADeadFreezer) {
  const std::string dead = file("dead.csv", freezer(Defrosts::well, {4, 2000, Lasting::To::is_dead}));
  const Ran alone = run_program({"log", dead});
  EXPECT_EQ(alone.exit_code, 3) << alone.out;
  EXPECT_THAT(alone.out, AllOf(HasSubstr("Settle this first"), HasSubstr("did not cool for"), HasSubstr("21.0 °C")));
  EXPECT_THAT(alone.out, ::testing::Not(HasSubstr("Nothing in it asks")));
  const Ran ran = run_program({"log", "--before", file("before.csv", freezer(Defrosts::never)), "--after", dead});
  EXPECT_EQ(ran.exit_code, 3) << ran.out;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NOT PROVED YET"), HasSubstr("it stood still for")));
  // What the log before leaves open is no "no fault" either.
  const Ran open = run_program({"log", "--before", dead, "--after", file("after.csv", freezer(Defrosts::well))});
  EXPECT_EQ(open.exit_code, 3) << open.out;
  EXPECT_THAT(open.out, AllOf(HasSubstr("NOT PROVED YET"), ::testing::Not(HasSubstr("NO FAULT IN EITHER"))));
}

TEST_F(Repair, TakesTheColumnsOfALoggerFromAFile) {
  const std::string log_file = this->file("a.csv", "t,a,b\n0,95,-18.5\n60,96,-18.4\n120,2,-18.3\n180,2,-18.1\n");
  const std::string mapping =
      this->file("logger.columns", "# the logger in the van\r\ntime=t:s\r\n\n power=a:W\ncoil_temperature=b:degC\n");
  const Ran ran = run_program({"log", log_file, "--columns", mapping});
  EXPECT_NE(ran.exit_code, 2) << ran.err;
  EXPECT_THAT(ran.out, Not(HasSubstr("Guessed: coil_temperature")));
  const Ran wrong = run_program({"log", log_file, "--columns", this->file("wrong.columns", "\npower\n")});
  EXPECT_EQ(wrong.exit_code, 2);
  EXPECT_THAT(wrong.err, HasSubstr("wrong.columns:2 takes QUANTITY=COLUMN"));
  EXPECT_EQ(run_program({"log", log_file, "--columns", "/nowhere.columns"}).exit_code, 2);
}

}  // namespace
}  // namespace ohmwright
