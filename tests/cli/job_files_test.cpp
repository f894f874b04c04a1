// A job book that goes on without the files that a call named: lost, moved, or shipped no more.

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job_call.hpp"
#include "made_logs.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;
using testing::Ran;

/// What was read from a file is in the book: the job goes on in another folder and on another machine.
TEST_F(JobCall, GoesOnWithoutTheFilesThatWereNamed) {
  const std::string source = OHMWRIGHT_SOURCE_DIR;
  const auto copy = [&](const std::string& from, const std::string& name, const std::string& title) {
    std::ifstream file(source + from);
    nlohmann::json json = nlohmann::json::parse(file);
    json["name"] = name;
    json["title"] = title;
    std::ofstream(folder_ + "/" + name + ".json") << json;
    return folder_ + "/" + name + ".json";
  };
  const std::string meter = copy("/framework/ohmwright/document/meters/bench.json", "mine", "My own meter");
  const std::string heater =
      copy("/plugins/heater/ratings/heater-450w-120v.json", "other", "Heater of the other maker");
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"sign", "--meter", meter});
  done({"replace", "heater", "--new", heater, "--because", "it is what there is"});
  const std::string log = folder_ + "/well.csv";
  std::ofstream(log) << testing::freezer(testing::Defrosts::well);
  run({"verify", "--log", log});
  for (const std::string& file : {meter, heater, log}) std::filesystem::remove(file);
  EXPECT_EQ(run({"read", "heater", "32.0", "--lead-off"}).err, "");
  EXPECT_EQ(report()["readings"].back()["meter"], "My own meter");
  EXPECT_EQ(report()["readings"].back()["outcome"], "within-limits");
  EXPECT_NE(run({"read", "heater-alone=32"}).exit_code, 2);
  for (const char* action : {"next", "find", "card", "report", "verify"}) {
    const Ran ran = run({action});
    EXPECT_NE(ran.exit_code, 2) << action << ran.err;
    EXPECT_THAT(ran.out, Not(HasSubstr("can no longer be read"))) << action;
  }
  const Ran html = run({"report", "--format", "html"});
  EXPECT_EQ(html.err, "");
  EXPECT_THAT(html.out, HasSubstr("The log from after the repair"));
  done({"replace", "heater", "--new", "heater-450w-120v", "--because", "again"});
}

/// As earlier versions wrote it: a path, and nothing of what stood there.
TEST_F(JobCall, GoesOnWithAWordWhereAFileIsLost) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const std::string file = folder_ + "/old.jsonl";
  const auto add = [&](const std::string& form, const std::string& digit, const nlohmann::json& content) {
    done({"export", "--out", file});
    std::ifstream book(file);
    std::string first;
    std::getline(book, first);
    nlohmann::json entry = nlohmann::json::parse(first);
    entry["id"] = "00000000-0000-4000-8000-00000000000" + digit;
    entry["form"] = form;
    entry["content"] = content;
    std::ofstream(file) << entry << '\n';
    done({"import", file});
  };
  add("evidence", "1", {{"option", "--meter"}, {"word", "./gone-meter.json"}});
  add("replaced", "2",
      {{"part", "heater"},
       {"title", "Defrost heater"},
       {"kind", "heater"},
       {"new", "./gone-ratings.json"},
       {"new_title", "Other heater"},
       {"has_earth", true},
       {"tells_insulation", true}});
  add("checked", "3", {{"what", "log"}, {"outcome", "undecided"}, {"file", "gone.csv"}});
  for (const char* action : {"next", "find"})
    EXPECT_THAT(run({action, "--width", "300"}).out,
                AllOf(HasSubstr("./gone-meter.json can no longer be read"), HasSubstr("--ratings FILE")));
  const Ran html = run({"report", "--format", "html"});
  EXPECT_EQ(html.exit_code, 0);
  EXPECT_THAT(html.err, HasSubstr("keeps no picture of the log gone.csv"));
  EXPECT_NE(run({"read", "heater-alone=32"}).exit_code, 2);
  EXPECT_EQ(run({"read", "heater", "32.0", "--lead-off", "--ratings", "heater-450w-120v"}).exit_code, 0);
  done({"replace", "heater", "--new", "heater-450w-120v", "--because", "again"});
  EXPECT_THAT(run({"find", "--width", "300"}).out, Not(HasSubstr("--ratings FILE")));
}

/// Earlier versions kept its name alone: the record prints all the same, and a search tells how it is named anew.
TEST_F(JobCall, ReportsACallWhoseApplianceIsShippedNoMore) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "32.0", "--lead-off"});
  const std::string file = folder_ + "/old.jsonl";
  std::string lines = done({"export"});
  std::filesystem::remove_all(folder_ + "/ohmwright");
  std::ofstream old(file);
  for (std::size_t end = lines.find('\n'); end != std::string::npos; end = lines.find('\n')) {
    nlohmann::json entry = nlohmann::json::parse(lines.substr(0, end));
    if (entry["form"] == "appliance") entry["content"] = {{"name", "gone-appliance"}};
    old << entry << '\n';
    lines.erase(0, end + 1);
  }
  old.close();
  done({"import", file});
  EXPECT_THAT(done({"report"}), HasSubstr("Defrost heater"));
  EXPECT_THAT(run({"report"}).err, HasSubstr("no page of possible faults"));
  EXPECT_THAT(refused({"next"}), HasSubstr("ohmwright job sign --appliance"));
  done({"sign", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_NE(run({"next"}).exit_code, 2);
}

/// A reading or a sign that names nothing any more is passed over: another appliance was named, or its file changed.
TEST_F(JobCall, PassesOverWhatNamesNothingAnyMore) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--zone", "coil=-20C"});
  run({"read", "heater-alone=32"});
  std::ifstream shipped(std::string(OHMWRIGHT_SOURCE_DIR) +
                        "/framework/ohmwright/appliance/appliances/upright-timer-bimetal-120v.json");
  std::string text{std::istreambuf_iterator<char>(shipped), {}};
  for (std::size_t at = text.find("heater-alone"); at != std::string::npos; at = text.find("heater-alone", at))
    text.replace(at, 12, "heater-other");
  std::ofstream(folder_ + "/changed.json") << text;
  done({"sign", "--appliance", folder_ + "/changed.json"});
  EXPECT_THAT(run({"next", "--width", "300"}).out,
              HasSubstr("Passed over, since the appliance's file has nothing of that name: heater-alone=32"));
  EXPECT_EQ(run({"report"}).exit_code, 0);
  done({"sign", "--symptom", "no-heat"});
  EXPECT_THAT(run({"read", "heater-other=32"}).out, HasSubstr("Passed over"));
}

}  // namespace
}  // namespace ohmwright
