// `ohmwright plugin` through the real program.

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <sys/stat.h>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "../unit/plugin/plugin_folder.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;

/// Runs `ohmwright plugin …` with settings of its own.
class PluginVerb : public ::testing::Test {
 protected:
  Ran plugin(std::vector<std::string> words) {
    words.insert(words.begin(), "plugin");
    return run(words);
  }
  Ran run(const std::vector<std::string>& words) {
    return testing::run_program(words, {"XDG_CONFIG_HOME=" + (folder_.path() / "settings").string()});
  }
  test::PluginFolder folder_;
};

TEST_F(PluginVerb, InspectSaysWhatAFileIsAndRunsNothing) {
  const std::string good = folder_.add("good").string();
  const Ran ran = plugin({"inspect", good});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("good-part, also called: well made part"), HasSubstr("for plugin ABI 2"),
                             HasSubstr("SHA-256: "), HasSubstr("It would be taken.")));
  const std::string newer = folder_.add("static_initialiser_writes_file").string();
  const Ran refused = plugin({"inspect", newer});
  EXPECT_EQ(refused.exit_code, 4);
  EXPECT_THAT(refused.out, AllOf(HasSubstr("it was built for plugin ABI 3"), HasSubstr("Nothing of it was run.")));
}

TEST_F(PluginVerb, NewRefusesKindsThatNobodyMayMake) {
  const std::string folder = (folder_.path() / "microwave-magnetron").string();
  const Ran ran = plugin({"new", folder});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("the high-voltage side of a microwave oven can kill"));
  EXPECT_FALSE(std::filesystem::exists(folder));
}

TEST_F(PluginVerb, AllowTakesWhatOthersCanWriteToAndRevokeTakesThatBack) {
  const auto file = folder_.add("good");
  test::PluginFolder::set_mode(file, 0666);
  const std::vector<std::string> look{"kinds", "good-part", "--plugins", folder_.path().string()};
  const Ran before = run(look);
  EXPECT_EQ(before.exit_code, 2) << "what others can write to is not even read for its names";
  EXPECT_THAT(before.err, HasSubstr("others can write to the file (mode 0666)"));
  EXPECT_EQ(plugin({"allow", file.string()}).exit_code, 0);
  EXPECT_EQ(run(look).exit_code, 0);
  EXPECT_THAT(plugin({"allowed"}).out, HasSubstr("(good-part)"));
  EXPECT_EQ(plugin({"revoke", "good-part"}).exit_code, 0);
  EXPECT_EQ(run(look).exit_code, 2);
  const Ran again = plugin({"revoke", "good-part"});
  EXPECT_EQ(again.exit_code, 2);
  EXPECT_THAT(again.err, HasSubstr("nothing that is allowed has the SHA-256, file or kind \"good-part\""));
}

TEST_F(PluginVerb, AListThatOthersCanWriteToStopsEverything) {
  const auto file = folder_.add("good");
  ASSERT_EQ(plugin({"allow", file.string()}).exit_code, 0);
  test::PluginFolder::set_mode(folder_.path() / "settings" / "ohmwright" / "allowed-plugins.json", 0666);
  const Ran ran = run({"kinds"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, AllOf(HasSubstr("the list of allowed plugins"), HasSubstr("chmod go-w")));
}

TEST_F(PluginVerb, TestNamesWhatEndsItsProcess) {
#ifdef OHMWRIGHT_SANITIZED
  GTEST_SKIP() << "the sanitizer takes the signal itself";
#endif
  const Ran ran = plugin({"test", folder_.add("crashes_in_loading").string()});
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("MEND  it can be loaded"),
                             HasSubstr("it ended its process by signal 11 (Segmentation fault)")));
}

TEST_F(PluginVerb, TestSaysWhatIsMissingBesideALibrary) {
  const Ran ran = plugin({"test", folder_.add("good").string()});
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("ok    it exports the two symbols"), HasSubstr("there is no case in vectors/"),
                             HasSubstr("there is no class in ratings/"), HasSubstr("it has no fault mode")));
}

TEST_F(PluginVerb, TestWritesOverNothingOfThePlugin) {
  const auto file = folder_.add("good");
  const auto size = std::filesystem::file_size(file);
  const Ran ran = plugin({"test", file.parent_path().string(), "--out", file.string()});
  EXPECT_EQ(ran.exit_code, 2) << ran.out << ran.err;
  EXPECT_THAT(ran.err, HasSubstr("--out would overwrite"));
  EXPECT_EQ(std::filesystem::file_size(file), size);
}

/// The folder of a kind that comes with the program.
std::filesystem::path shipped(const std::string& kind) {
  return std::filesystem::path(OHMWRIGHT_PROGRAM).parent_path().parent_path() / "lib" / "ohmwright" / "plugins" / kind;
}

/// A kind of the installation, built anew elsewhere: who names that folder is told which of the two answers, and
/// `plugin test` tries the one that it is pointed at.
TEST_F(PluginVerb, AnotherBuildOfAnInstalledKindIsToldAndTried) {
  const std::filesystem::path installed = shipped("door-switch");
  const std::filesystem::path other = folder_.path() / "door-switch";
  std::filesystem::copy(installed, other, std::filesystem::copy_options::recursive);
  test::PluginFolder::set_mode(other, 0755);
  const std::string folder = folder_.path().string();
  const Ran vectors = run({"vectors", "door-switch", "--plugins", folder});
  EXPECT_EQ(vectors.exit_code, 0);
  std::string told = vectors.err;
  std::replace(told.begin(), told.end(), '\n', ' ');
  EXPECT_THAT(told, AllOf(HasSubstr("which was found first;"), HasSubstr((other / "door-switch.kind.json").string())));
  EXPECT_EQ(run({"vectors", "door-switch"}).err, "");
  const Ran tried = plugin({"test", (other / "door-switch.kind.json").string()});
  EXPECT_EQ(tried.exit_code, 0) << tried.out << tried.err;
  EXPECT_THAT(tried.out, HasSubstr("door-switch (" + (other / "door-switch.kind.json").string()));
}

TEST_F(PluginVerb, TestFindsNothingToMendInAShippedKind) {
  for (const char* kind : {"thermal-link", "heater"}) {
    const Ran ran = plugin({"test", shipped(kind).string()});
    EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("Nothing to mend."), Not(HasSubstr("MEND"))));
  }
}

/// The answer as JSON, held against its schema.
nlohmann::json checked_json(const Ran& ran, const Schema& schema) {
  const Document document = parse_document(ran.out, "answer");
  for (const Problem& problem : schema.problems(document.root))
    ADD_FAILURE() << problem.pointer << ": " << problem.text;
  return nlohmann::json::parse(ran.out);
}

TEST_F(PluginVerb, InspectAnswersInJsonToo) {
  const Ran ran = plugin({"inspect", folder_.add("good").string(), "--format", "json"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  const nlohmann::json good = checked_json(ran, plugin_inspection_schema());
  EXPECT_EQ(good["form"], "library");
  EXPECT_EQ(good["would_be_taken"], true);
  EXPECT_EQ(good["kinds"][0]["id"], "good-part");
  EXPECT_EQ(good["stamp"]["abi"], good["program_abi"]);
  const Ran other = plugin({"inspect", folder_.add("static_initialiser_writes_file").string(), "--format", "json"});
  EXPECT_EQ(other.exit_code, 4);
  const nlohmann::json newer = checked_json(other, plugin_inspection_schema());
  EXPECT_EQ(newer["would_be_taken"], false);
  EXPECT_THAT(newer["refused"].dump(), HasSubstr("it was built for plugin ABI 3"));
  const std::string text = folder_.write("not_a_library.ohmplug", std::vector<std::byte>(100, std::byte{'x'})).string();
  const Ran no_plugin = plugin({"inspect", text, "--format", "json"});
  EXPECT_FALSE(checked_json(no_plugin, plugin_inspection_schema()).contains("stamp"));
}

TEST_F(PluginVerb, TestAnswersInJsonTooAndNamesWhatEndedItsProcess) {
  const Ran ran = plugin({"test", folder_.add("good").string(), "--format", "json"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  const nlohmann::json report = checked_json(ran, plugin_test_schema());
  EXPECT_EQ(report["outcome"], "to-mend");
  EXPECT_EQ(report["trials"][0]["kind"], "good-part");
  const nlohmann::json& checks = report["trials"][0]["checks"];
  EXPECT_EQ(checks[0]["id"], "loading");
  EXPECT_EQ(checks[1]["id"], "exports");
  EXPECT_EQ(checks[1]["holds"], true);
  EXPECT_THAT(checks.dump(), HasSubstr("there is no case in vectors/"));
  const std::string file = (folder_.path() / "report.json").string();
  const Ran refused = plugin({"test", folder_.add("abi_newer").string(), "--format", "json", "--out", file});
  EXPECT_EQ(refused.exit_code, 4);
  EXPECT_EQ(refused.out, "");
#ifndef OHMWRIGHT_SANITIZED
  const Ran crashed = plugin({"test", folder_.add("crashes_in_loading").string(), "--format", "json"});
  EXPECT_EQ(crashed.exit_code, 1);
  const nlohmann::json last = checked_json(crashed, plugin_test_schema())["trials"][0]["checks"].back();
  EXPECT_EQ(last["id"], "loading");
  EXPECT_EQ(last["to_mend"][0], "it ended its process by signal 11 (Segmentation fault)");
#endif
}

TEST_F(PluginVerb, TestSaysWhatItCouldNotTry) {
  const std::filesystem::path switch_of_a_door = shipped("door-switch") / "door-switch.kind.json";
  const nlohmann::json report =
      checked_json(plugin({"test", switch_of_a_door.string(), "--format", "json"}), plugin_test_schema());
  EXPECT_EQ(report["outcome"], "fine");
  for (const nlohmann::json& check : report["trials"][0]["checks"]) {
    EXPECT_EQ(check["holds"], check["id"] != "good-parts") << check;
    if (check["id"] != "good-parts") continue;
    EXPECT_THAT(check["not_tried"].get<std::string>(), HasSubstr("no measurand is the value of one element"));
  }
}

TEST_F(PluginVerb, WhereTheListIsTheOnlyWayNothingElseIsTaken) {
  const std::string file = folder_.add("good").string();
  const auto run_so = [&](const std::vector<std::string>& words, const std::string& value = "1") {
    return testing::run_program(words, {"XDG_CONFIG_HOME=" + (folder_.path() / "settings").string(),
                                        "OHMWRIGHT_ONLY_ALLOWED_PLUGINS=" + value});
  };
  const std::vector<std::string> look{"kinds", "good-part", "--plugins", folder_.path().string()};
  EXPECT_EQ(run(look).exit_code, 0) << "owner and mode are right";
  EXPECT_NE(run_so(look).exit_code, 0);
  EXPECT_THAT(run_so({"kinds", "--plugins", folder_.path().string()}).out,
              HasSubstr("it is not on the list of allowed plugins, and nothing else is taken here"));
  EXPECT_EQ(run_so({"kinds", "heater"}).exit_code, 0) << "the installation's own are taken";
  EXPECT_EQ(run_so({"plugin", "test", file}).exit_code, 4) << "nor is it tried out";
  EXPECT_EQ(run_so({"plugin", "inspect", file}).exit_code, 4);
  EXPECT_EQ(run_so({"plugin", "allow", file}).exit_code, 0);
  EXPECT_EQ(run_so(look).exit_code, 0);
  EXPECT_EQ(run_so({"plugin", "inspect", file}).exit_code, 0);
  EXPECT_EQ(run_so(look, "").exit_code, 0) << "empty: as if it was not set";
  EXPECT_THAT(run_so(look, "yes").err, HasSubstr("takes 1, or is not set"));
}

TEST_F(PluginVerb, DebugShowsEvidenceAndWhyEachRuleSpoke) {
  const Ran ran = plugin({"debug", "heater", "32", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("connection lead_off"), HasSubstr("rule element-resistance (essential)"),
                             HasSubstr("silent, text "), HasSubstr("conclusion"), HasSubstr("gdb --args")));
}

TEST_F(PluginVerb, AWorkerRunsWhatIsFoundOutside) {
  folder_.add("crashes_in_judge");
  const Ran ran = run({"check", "crashes-in-judge", "10", "--lead-off", "--plugins", folder_.path().string()});
  EXPECT_EQ(ran.exit_code, 4);
  EXPECT_THAT(ran.err, HasSubstr("not judged: the plugin failed: it ended its process by signal 11"));
}

TEST_F(PluginVerb, RefusesWhatItCannotMean) {
  const auto refusal = [&](std::vector<std::string> words) { return plugin(std::move(words)).err; };
  EXPECT_THAT(refusal({"inspekt", "x"}), HasSubstr("did you mean \"inspect\"?"));
  EXPECT_THAT(refusal({"new"}), HasSubstr("missing: FOLDER"));
  EXPECT_THAT(refusal({"inspect", "a", "b"}), HasSubstr("one word too many: \"b\""));
  EXPECT_THAT(refusal({"allowed", "--like", "motor"}), HasSubstr("plugin allowed takes no --like"));
  EXPECT_THAT(refusal({"test", "--lead-off"}), HasSubstr("unknown option \"--lead-off\""));
  EXPECT_THAT(refusal({"new", (folder_.path() / "A B").string()}), HasSubstr("name it with --kind"));
  EXPECT_THAT(refusal({"new", (folder_.path() / "heater").string()}), HasSubstr("the name \"heater\" is taken"));
  EXPECT_THAT(refusal({"test", folder_.path().string()}), HasSubstr("there is no plugin in"));
}

}  // namespace
}  // namespace ohmwright
