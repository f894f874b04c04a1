// `ohmwright appliance` through the real program: its pages, its files, its refusals word for word.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/report/paragraph.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ohmwright::testing::Ran;
using ohmwright::testing::run_program;
using ::testing::HasSubstr;
using ::testing::StartsWith;

std::string whole(const std::string& path) {
  const std::ifstream file(path);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

Ran appliance(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.begin(), "appliance");
  return run_program(words, {}, input);
}

std::string refusal(const std::vector<std::string>& words) {
  const Ran ran = appliance(words);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.out, "");
  return ran.err;
}

/// A folder of its own, with a fan heater's file in it.
class ApplianceVerb : public ::testing::Test {
 protected:
  ApplianceVerb() : folder_("/tmp/ohmwright-appliance-verb-" + std::to_string(::getpid())) {
    std::filesystem::create_directory(folder_);
    std::filesystem::copy_file(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances/vented-dryer-230v.json",
                               file(), std::filesystem::copy_options::overwrite_existing);
  }
  ~ApplianceVerb() override { std::filesystem::remove_all(folder_); }

  std::string file() const { return folder_ + "/dryer.json"; }

  /// The file with `from` replaced by `to`.
  void change(const std::string& from, const std::string& to) const {
    std::string text = whole(file());
    const std::size_t at = text.find(from);
    ASSERT_NE(at, std::string::npos) << from;
    std::ofstream(file()) << text.replace(at, from.size(), to);
  }

  std::string folder_;
};

TEST_F(ApplianceVerb, ListsWhatIsShipped) {
  const Ran ran = appliance({"list"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("vented-dryer-230v\n  Vented clothes dryer, mechanical timer, 230 V\n"));
}

TEST_F(ApplianceVerb, ShowsAnApplianceSafetyFirst) {
  const Ran ran = appliance({"show", "vented-dryer-230v"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out,
              StartsWith("Vented clothes dryer, mechanical timer, 230 V (vented-dryer-230v)\n"
                         "  Unplug it, keep the plug in sight and prove it dead before any cover comes\n  off."));
  EXPECT_THAT(ran.out, HasSubstr("  - heater: Heater, dryer-heater dryer-2000w-230v; lead-1 at C, lead-2 at N,\n"
                                 "    frame at PE; behind: back panel\n"));
  EXPECT_THAT(ran.out, HasSubstr("  - heat-wire: Heat wire at the timer to neutral, knob at off (ohms, 2 min;\n"
                                 "    5 min with what hides it)\n"));
  EXPECT_THAT(ran.out, HasSubstr("Set-up @cycling-warmed: cycling thermostat warmed past its opening point (8 min)\n"
                                 "  - First: Water runs to the base"));
  EXPECT_THAT(ran.out, HasSubstr("  - laundry-stays-wet: The drum turns and the laundry stays wet\n"));
}

TEST_F(ApplianceVerb, KeepsToItsWidth) {
  for (const char* action : {"show", "check"})
    for (const int width : {40, 80}) {
      std::stringstream lines(appliance({action, "dishwasher-230v", "--width", std::to_string(width)}).out);
      for (std::string line; std::getline(lines, line);) EXPECT_LE(columns_of(line), width) << line;
    }
}

TEST_F(ApplianceVerb, ShowsAPageForTheBrowserThatLoadsNothing) {
  const Ran ran = appliance({"show", file(), "--format", "html"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, StartsWith("<!DOCTYPE html>"));
  EXPECT_THAT(ran.out, HasSubstr("default-src 'none'"));
}

TEST_F(ApplianceVerb, ChecksAFileThatIsRight) {
  const Ran ran = appliance({"check", file()});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, StartsWith("Vented clothes dryer, mechanical timer, 230 V: can be used as it is.\n"));
}

TEST_F(ApplianceVerb, ChecksAFileThatIsToBeMended) {
  change(R"({"lead-1": "C", "lead-2": "N", "frame": "PE"})", R"({"lead-1": "c", "lead-2": "N", "frame": "PE"})");
  const Ran ran = appliance({"check", file()});
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_THAT(ran.out, HasSubstr("Vented clothes dryer, mechanical timer, 230 V: mend the file.\n"
                                 "\n"
                                 "Wrong\n"
                                 "  - Node C: only link.lead-2 is there, and no test point."));
}

TEST_F(ApplianceVerb, GivesFindingsToPrograms) {
  change(R"({"lead-1": "C", "lead-2": "N", "frame": "PE"})", R"({"lead-1": "c", "lead-2": "N", "frame": "PE"})");
  change("\"from\": \"MT\",\n      \"to\": \"PE\"", R"("from": "MT", "to": "MT")");
  const Ran ran = appliance({"check", file(), "--format", "json"});
  EXPECT_EQ(ran.exit_code, 1);
  const Schema schema(whole(OHMWRIGHT_SOURCE_DIR "/schemas/appliance-check.schema.json"), "the schema");
  EXPECT_TRUE(schema.problems(parse_document(ran.out, "out").root).empty());
  const nlohmann::json json = nlohmann::json::parse(ran.out);
  EXPECT_EQ(json["wrong"][0]["finding"], "loose-node");
  EXPECT_EQ(json["wrong"][0]["node"], "C");
  EXPECT_EQ(json["wrong"].back()["test_point"], "motor-to-earth");
  EXPECT_EQ(json["to_know"][0]["finding"], "unseen-fault");
}

TEST_F(ApplianceVerb, TellsOfABadFileWithItsPlaces) {
  change(R"("zone": "outlet",)", R"("zone": "outled",)");
  EXPECT_EQ(refusal({"check", file()}),
            "ohmwright: " + file() + ":24: /parts/0/zone: there is no zone \"outled\"; did you mean \"outlet\"?\n");
}

TEST_F(ApplianceVerb, DrawsTheCircuitWithMarks) {
  const Ran ran = appliance({"draw", file(), "--format", "dot", "--mark", "heater=62%", "--mark", "link=0.97"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("possible, 62 %"));
  EXPECT_THAT(ran.out, HasSubstr("AT FAULT, 97.0 %"));
  const std::string picture = folder_ + "/dryer.svg";
  const Ran drawn = appliance({"draw", file(), "--out", picture});
  if (drawn.exit_code == 2) {  // no Graphviz here
    EXPECT_EQ(drawn.err,
              "ohmwright: drawing needs the program dot of Graphviz, which is not there or failed; install the package "
              "graphviz, or take the description with --format dot\n");
    GTEST_SKIP() << "dot of Graphviz is not installed";
  }
  EXPECT_THAT(whole(picture), HasSubstr("</svg>"));
}

TEST_F(ApplianceVerb, MakesAFileFromDigits) {
  const std::string made = folder_ + "/made.json";
  const Ran ran = appliance({"new", "--out", made}, "1\n7\n1\n2\n2\n1\n3\n");
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, StartsWith("\nWhich supply does its plate ask for?\n  1  120 V, 60 Hz\n  2  230 V, 50 Hz\n"
                                  "  3  don't know\n> \nWhat starts a defrost?\n"));
  EXPECT_THAT(ran.err, HasSubstr("> Type a digit from 1 to 3.\n> "));
  EXPECT_THAT(ran.err, HasSubstr("  - The refrigerant is not known: treat it as flammable.\n"
                                 "Written. Go on with:\n  ohmwright locate " +
                                 made + "\n"));
  EXPECT_EQ(appliance({"check", made}).exit_code, 0);
  EXPECT_THAT(whole(made), HasSubstr("\"ratings\": \"cam-timer-120v\""));
  // The same for a script, which answers beforehand.
  const Ran script = appliance({"new", "--answer", "volts=120", "--answer", "starts=timer", "--answer", "ends=bimetal",
                                "--answer", "link=no", "--answer", "fan=two"});
  EXPECT_EQ(script.out, whole(made));
}

TEST_F(ApplianceVerb, AddsASpliceAndAPartFoundOnSite) {
  Ran ran = appliance({"add", file(), "--part", "lamp=heater", "--between", "HT,N", "--title", "Drum lamp"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.out, "Added Drum lamp (lamp), and the test point lamp-alone.\n");
  EXPECT_THAT(whole(file()), HasSubstr(R"("connections": {"lead-1": "HT", "lead-2": "N"})"));
  EXPECT_EQ(appliance({"check", file()}).exit_code, 0);
  ran = appliance({"add", file(), "--splice", "heater.lead-1"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(ran.out, "Added Splice at Heater (splice), and the test point splice-alone.\n");
  EXPECT_EQ(appliance({"check", file()}).exit_code, 0);
}

TEST_F(ApplianceVerb, LeavesTheFileAsItWasWhenAnAdditionIsWrong) {
  const std::string before = whole(file());
  EXPECT_THAT(refusal({"add", file(), "--part", "heater=heater", "--between", "HT,N"}),
              HasSubstr("the name \"heater\" stands twice"));
  EXPECT_EQ(whole(file()), before);
}

TEST_F(ApplianceVerb, RefusesWhatItCannotDo) {
  EXPECT_EQ(refusal({"shoe"}),
            "ohmwright: appliance cannot \"shoe\"; did you mean \"show\"?; it can: list, show, "
            "check, draw, new, add\n");
  EXPECT_EQ(refusal({"show"}),
            "ohmwright: missing: APPLIANCE; ohmwright appliance show takes the name of a shipped "
            "one (ohmwright appliance list) or a file\n");
  EXPECT_EQ(refusal({"list", "all"}), "ohmwright: one word too many: \"all\"; ohmwright appliance list takes none\n");
  EXPECT_EQ(refusal({"check", "vented-dryer-230v", "--format", "svg"}),
            "ohmwright: appliance check has the formats text, json, got \"svg\"\n");
  EXPECT_EQ(refusal({"check", "vented-dryer-230v", "--mark", "heater=1"}),
            "ohmwright: appliance check takes no --mark\n");
  EXPECT_EQ(refusal({"draw", "vented-dryer-230v", "--format", "dot", "--mark", "heater=2"}),
            "ohmwright: --mark takes PART=PROBABILITY, such as heater=31%, got \"heater=2\"\n");
  EXPECT_EQ(refusal({"draw", "vented-dryer-230v", "--format", "dot", "--mark", "heeter=1"}),
            "ohmwright: the appliance has no part \"heeter\"; did you mean \"heater\"?; it has: cycling, limit, link, "
            "heater, motor, capacitor\n");
  EXPECT_EQ(refusal({"new", "--answer", "volts"}),
            "ohmwright: --answer takes QUESTION=CHOICE, such as volts=120, got \"volts\"\n");
  EXPECT_EQ(refusal({"new", "--answer", "volts=110"}),
            "ohmwright: the question volts has no answer \"110\"; did you mean \"120\"?\n");
  EXPECT_EQ(refusal({"add", "vented-dryer-230v", "--splice", "heater.lead-1"}),
            "ohmwright: appliance add takes a file of your own, got \"vented-dryer-230v\"; make one with: ohmwright "
            "appliance new --out FILE.json\n");
  EXPECT_EQ(refusal({"add", file()}),
            "ohmwright: appliance add takes one of --part ID=KIND --between NODE,NODE and "
            "--splice PART.TERMINAL\n");
  EXPECT_EQ(refusal({"add", file(), "--part", "lamp=heater"}),
            "ohmwright: a part needs --between NODE,NODE: where its terminals are connected\n");
}

TEST_F(ApplianceVerb, DrawsWhatLocateFound) {
  const Ran found = run_program(
      {"locate", "upright-thermistor-230v", "heater-plug=OL", "link-alone=0.3", "heater-alone=OL", "--format", "json"});
  const Ran drawn =
      run_program({"appliance", "draw", "upright-thermistor-230v", "--after", "-", "--format", "dot"}, {}, found.out);
  EXPECT_EQ(drawn.exit_code, 0) << drawn.err;
  EXPECT_THAT(drawn.out, ::testing::AllOf(HasSubstr("AT FAULT, > 99.9 %"), HasSubstr("unlikely, ")));
  EXPECT_THAT(
      run_program({"appliance", "draw", "vented-dryer-230v", "--after", "-", "--format", "dot"}, {}, found.out).err,
      HasSubstr("is this what locate gave for another one?"));
  EXPECT_THAT(run_program({"appliance", "draw", "upright-thermistor-230v", "--after", "-", "--mark", "heater=1"}).err,
              HasSubstr("--mark and --after both say which parts to mark; give one of them"));
}

}  // namespace
}  // namespace ohmwright
