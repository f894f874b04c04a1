// Kinds without C++ through the real program.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "made_logs.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

Ran check(std::vector<std::string> words) {
  words.insert(words.begin(), {"check", "thermal-link"});
  return run_program(words);
}

/// Limits that stand still, as those of a short do, say nothing of readings at other temperatures.
TEST(KindFileSensor, AgreesWithItselfAtTwoTemperatures) {
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"check", "water-sensor", "11.7k@21C", "4.1k@50C", "--ratings", "ntc-10k-b3435"},
        std::vector<std::string>{"check", "oven-sensor", "1082ohm@21C", "1155ohm@40C", "--ratings", "pt1000"}}) {
    std::vector<std::string> all(words);
    all.emplace_back("--lead-off");
    const Ran ran = run_program(all);
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, Not(HasSubstr("do not agree"))) << words[1];
  }
}

// IEC 60691 (from memory): a thermal link opens once, within +0/-10 K of its functioning temperature.
TEST(ThermalLink, ClosedWhenColdIsInSpec) {
  const Ran ran = check({"closed", "--at", "23C", "--lead-off"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("IN SPEC: Thermal link"), HasSubstr("Never bridge"), HasSubstr("Unplug it")));
}

TEST(ThermalLink, OpenIsOutOfSpecAndHasACause) {
  for (const char* name : {"thermal-link", "thermal fuse", "TCO"}) {
    const Ran ran = run_program({"check", name, "OL"});
    EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("find what overheated it"), HasSubstr("Never bridge it")));
  }
}

TEST(ThermalLink, ClosedInCircuitDecidesNothing) {
  EXPECT_EQ(check({"closed", "--at", "23C", "--in-circuit"}).exit_code, 3);
  EXPECT_EQ(check({"closed", "--at", "23C"}).exit_code, 3);
}

TEST(ThermalLink, IsShownAndItsVectorsAgree) {
  EXPECT_THAT(run_program({"kinds", "thermal-link"}).out,
              AllOf(HasSubstr("Thermal link (thermal-link)"), HasSubstr("--at: the temperature of the part"),
                    HasSubstr("state: Closed or open (must pass)"), HasSubstr("open: it acted")));
  const Ran ran = run_program({"vectors", "thermal-link"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out;
  EXPECT_THAT(ran.out, HasSubstr(" agree, 0 differ"));
  EXPECT_THAT(run_program({"ratings", "tf-184"}).out, HasSubstr("functioning_temperature: 184 degC"));
}

TEST(ThermalLink, HasAChartOfTheShareThatIsClosed) {
  const Ran ran = run_program({"chart", "thermal-link", "--ratings", "tf-72", "--from", "60C", "--to", "74C", "--step",
                               "2K", "--format", "json"});
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const auto chart = nlohmann::json::parse(ran.out);
  std::vector<double> shares;
  for (const auto& point : chart.at("lines").at(0).at("points")) shares.push_back(point.at("share_closed"));
  ASSERT_EQ(shares.size(), 8U);
  EXPECT_EQ(shares.front(), 1.0);
  EXPECT_NEAR(shares[1], 1.0, 1e-9);  // 62 °C
  EXPECT_NEAR(shares[2], 0.8, 1e-9);
  EXPECT_EQ(shares.back(), 0.0);  // 74 °C
  EXPECT_THAT(run_program({"chart", "thermal-link", "--ratings", "tf-72"}).out,
              AllOf(HasSubstr("* share of good parts that are closed"), Not(HasSubstr("history"))));
}

TEST(ThermalLink, SpeaksThroughItsOwnCatalogue) {
  const Ran ran = check({"OL", "--lead-off", "--every-rule", "--language", "qpb", "--width", "200"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("⟦Thermal link⟧"), HasSubstr("⟦The thermal link is open."),
                             HasSubstr("⟦Not judged: no value of it was read.⟧"), HasSubstr("⟦Microwave oven")));
  EXPECT_THAT(check({"closed", "--at", "23C", "--lead-off", "--language", "qpb"}).out,
              HasSubstr("⟦Closed at 23.0 °C. A good one stays closed up to"));
}

class KindFilesOfAUser : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-kind-files-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
    std::filesystem::create_directory(folder_ / "my-part");
    std::filesystem::permissions(folder_ / "my-part", std::filesystem::perms(0755));
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  void write(const std::string& text) const {
    const std::filesystem::path path = folder_ / "my-part" / "my-part.kind.json";
    std::ofstream(path, std::ios::binary) << text;
    std::filesystem::permissions(path, std::filesystem::perms(0644));
  }

  std::filesystem::path folder_;
};

TEST_F(KindFilesOfAUser, ThatAreWrongAreListedWithLineAndPointerAndTheRestGoesOn) {
  write("{\n  \"kind\": \"my-part\",\n  \"titel\": \"Mine\"\n}\n");
  const Ran ran = run_program({"kinds", "--plugins", folder_.string(), "--width", "200"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Refused"), HasSubstr("my-part.kind.json"),
                             HasSubstr("line 1: the field \"title\" is missing: what people read (is it \"titel\"?)"),
                             HasSubstr("line 3, /titel: unknown field \"titel\"; did you mean \"title\"?"),
                             HasSubstr("thermal-link")));
}

TEST_F(KindFilesOfAUser, ThatAreWrongEndWithTheCodeOfPlugins) {
  for (const char* text : {"{\n  \"kind\": \"my-part\"\n}\n", "not JSON", ""}) {
    write(text);
    const Ran ran = run_program({"check", "my-part", "1ohm", "--plugins", folder_.string()});
    EXPECT_EQ(ran.exit_code, 4) << text;
    EXPECT_EQ(ran.out, "");
    EXPECT_THAT(ran.err, HasSubstr("my-part.kind.json: kind file refused: ")) << text;
  }
}

// What only the reader of kind files knows is told in the list too, and the other kinds are judged all the same.
TEST_F(KindFilesOfAUser, ThatOnlyTheirReaderRefusesAreNoHealthyKinds) {
  const std::filesystem::path plugins =
      std::filesystem::path(OHMWRIGHT_PROGRAM).parent_path().parent_path() / "lib/ohmwright/plugins";
  std::ifstream shipped(plugins / "thermal-link" / "thermal-link.kind.json");
  nlohmann::ordered_json kind = nlohmann::ordered_json::parse(shipped);
  kind["kind"] = "my-part";
  kind["aliases"] = nlohmann::ordered_json::array();
  kind["procedures"][0]["cautions"] = {"disconnect-power"};
  write(kind.dump(1));
  const Ran listed = run_program({"kinds", "--plugins", folder_.string(), "--width", "200"});
  EXPECT_EQ(listed.exit_code, 0);
  EXPECT_THAT(listed.out, AllOf(HasSubstr("Refused"), HasSubstr("the caution \"prove-dead\" is missing"),
                                HasSubstr("thermal-link\n"), Not(HasSubstr("\nmy-part\n"))));
  const Ran judged = run_program({"vectors", "my-part", "thermal-link", "--plugins", folder_.string()});
  EXPECT_EQ(judged.exit_code, 4);
  EXPECT_THAT(judged.out, HasSubstr(" agree, 0 differ"));
  EXPECT_THAT(judged.err, HasSubstr("my-part.kind.json: kind file refused: "));
}

/// A kind with formulas, insulation and faults in series, put where a user would.
class AWholeKindFile : public KindFilesOfAUser {
 protected:
  void SetUp() override {
    KindFilesOfAUser::SetUp();
    std::filesystem::copy(std::filesystem::path(OHMWRIGHT_SOURCE_DIR) / "tests/cli/kind_files", folder_,
                          std::filesystem::copy_options::recursive);
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_))
      std::filesystem::permissions(entry,
                                   entry.is_directory() ? std::filesystem::perms(0755) : std::filesystem::perms(0644));
  }

  Ran run(std::vector<std::string> words) const {
    words.insert(words.end(), {"--plugins", folder_.string(), "--width", "200"});
    return run_program(words);
  }
};

// Joule's law: 230^2/2000 = 26.45 ohm hot, and 4 % less at 20 °C by the coefficient of its class.
TEST_F(AWholeKindFile, IsJudgedByItsFormula) {
  const Ran good =
      run({"check", "water-heater-tube", "25.6", "--at", "20C", "--lead-off", "--ratings", "tube-2kw-230v"});
  EXPECT_EQ(good.exit_code, 0) << good.out << good.err;
  EXPECT_THAT(good.out,
              AllOf(HasSubstr("22.85 Ω to 27.93 Ω"), HasSubstr("Not yet proved safe to energise: Insulation")));
  EXPECT_EQ(run({"check", "tube-element", "38", "--at", "20C", "--lead-off", "--ratings", "tube-2kw-230v"}).exit_code,
            1);
  const Ran vectors = run({"vectors", "tube-element"});
  EXPECT_EQ(vectors.exit_code, 0) << vectors.out << vectors.err;
  EXPECT_THAT(vectors.out, HasSubstr("vectors: 3 agree, 0 differ"));
}

/// A part that heats the coil and cannot be asked for its watts: a log must not pass in silence what nothing was held
/// against.
TEST_F(AWholeKindFile, ThatLogsCannotAskIsNamed) {
  const std::filesystem::path file = folder_ / "tube-element" / "tube-element.kind.json";
  std::stringstream read;
  read << std::ifstream(file).rdbuf();
  std::string text = read.str();
  const std::string role = "heats-water";
  text.replace(text.find(role), role.size(), "heats-coil");
  std::ofstream(file) << text;
  const std::vector<std::string> words{"log", "-", "--ends-at", "10C", "--plugins", folder_.string()};
  const std::string made = testing::freezer(testing::Defrosts::well);
  EXPECT_EQ(run_program(words, {}, made).exit_code, 0);
  std::vector<std::string> with_ratings = words;
  with_ratings.insert(with_ratings.end(), {"--line", "230V", "--ratings", "tube-element=tube-2kw-230v"});
  const Ran ran = run_program(with_ratings, {}, made);
  EXPECT_EQ(ran.exit_code, 3) << ran.out << ran.err;
  EXPECT_THAT(ran.err, AllOf(HasSubstr("The power of tube-element is not judged"), HasSubstr("line_voltage")));
  const std::filesystem::path before = folder_ / "before.csv";
  const std::filesystem::path after = folder_ / "after.csv";
  for (const auto& log : {before, after}) std::ofstream(log) << made;
  with_ratings.erase(with_ratings.begin() + 1);  // standard input
  with_ratings.insert(with_ratings.end(), {"--before", before.string(), "--after", after.string()});
  const Ran compared = run_program(with_ratings);
  EXPECT_EQ(compared.exit_code, 3) << compared.out << compared.err;
  EXPECT_THAT(compared.err, HasSubstr("The power of tube-element is not judged"));
}

// EN 50699 (from memory): a tester of 500 V reads insulation; the ohms beside it stay those of the meter.
TEST_F(AWholeKindFile, ReadsInsulationByATesterAlone) {
  const Ran ran = run({"check", "tube-element", "25.6", "insulation=20Mohm", "--test", "500V", "--at", "20C",
                       "--lead-off", "--ratings", "tube-2kw-230v", "--format", "json"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  const auto json = nlohmann::json::parse(ran.out);
  EXPECT_TRUE(json.at("not_yet_proved_safe").empty());
  ASSERT_EQ(json.at("other_instruments").size(), 1U);
  EXPECT_EQ(json.at("other_instruments").at(0).at("measurand"), "insulation");
  for (const auto& condition : json.at("readings").at(0).at("conditions"))
    EXPECT_NE(condition.at("id"), "test_voltage");
  const Ran by_ohmmeter = run(
      {"check", "tube-element", "25.6", "insulation=OL", "--at", "20C", "--lead-off", "--ratings", "tube-2kw-230v"});
  EXPECT_EQ(by_ohmmeter.exit_code, 3) << by_ohmmeter.out;
  EXPECT_THAT(by_ohmmeter.out,
              AllOf(HasSubstr("with its few volts it proves no"), HasSubstr("500 V insulation tester")));
}

/// Its conformance kit has vectors of both sides of the differential, each with its arithmetic.
TEST_F(AWholeKindFile, KnowsStatesAndHysteresis) {
  const auto outcome = [&](std::vector<std::string> words) {
    words.insert(words.begin(), {"check", "room-thermostat"});
    words.insert(words.end(), {"--lead-off", "--ratings", "room-10-16"});
    return run(words);
  };
  EXPECT_EQ(outcome({"OL", "--at", "12C ± 0.5K", "--came-from", "cold"}).exit_code, 1);
  const Ran warm = outcome({"OL", "--at", "12C ± 0.5K", "--came-from", "warm"});
  EXPECT_EQ(warm.exit_code, 3) << warm.out << warm.err;
  EXPECT_THAT(warm.out, HasSubstr("say from where it came"));
  EXPECT_EQ(outcome({"override=OL", "--lever", "pressed"}).exit_code, 1);
  EXPECT_THAT(outcome({"override=OL", "--lever", "bent"}).err, HasSubstr("pressed"));
  EXPECT_THAT(run({"kinds", "room-thermostat"}).out, HasSubstr("--came-from"));
  const Ran kit = run_program({"plugin", "test", (folder_ / "room-thermostat").string()});
  EXPECT_EQ(kit.exit_code, 0) << kit.out << kit.err;
}

TEST_F(AWholeKindFile, IsDrawnAndFound) {
  const Ran chart = run({"chart", "tube-element", "--ratings", "tube-2kw-230v", "--from", "20C", "--to", "420C",
                         "--step", "400K", "--format", "json"});
  ASSERT_EQ(chart.exit_code, 0) << chart.err;
  const auto points = nlohmann::json::parse(chart.out).at("lines").at(0).at("points");
  EXPECT_NEAR(points.at(0).at("nominal").get<double>(), 26.45 * 0.96, 1e-6);
  EXPECT_NEAR(points.at(1).at("nominal").get<double>(), 26.45, 1e-6);
  const std::string appliance = (folder_ / "water-heater.json").string();
  const auto found = [&](std::vector<std::string> readings) {
    readings.insert(readings.begin(), {"locate", appliance});
    return run(readings).out;
  };
  EXPECT_THAT(found({"plug=OL", "element-alone=OL"}), HasSubstr("Element: open"));
  EXPECT_THAT(found({"plug=38", "element-alone=38"}), HasSubstr("Element: worn, too many ohms"));
  EXPECT_THAT(found({"plug=220", "element-alone=220"}), HasSubstr("Element: a pin is burnt"));
  EXPECT_THAT(found({"plug=25.6", "plug-to-earth=0.2"}), HasSubstr("Element: shorted to its sheath"));
}

TEST_F(KindFilesOfAUser, ABrokenRatingsFileEndsNoList) {
  const std::filesystem::path plugins =
      std::filesystem::path(OHMWRIGHT_PROGRAM).parent_path().parent_path() / "lib/ohmwright/plugins";
  std::ifstream shipped(plugins / "thermal-link" / "thermal-link.kind.json");
  nlohmann::ordered_json kind = nlohmann::ordered_json::parse(shipped);
  kind["kind"] = "my-part";
  kind["aliases"] = nlohmann::ordered_json::array();
  write(kind.dump(1));
  const std::filesystem::path ratings = folder_ / "my-part" / "ratings";
  std::filesystem::create_directory(ratings);
  std::ofstream(ratings / "broken.json") << "{";
  const Ran all = run_program({"ratings", "--plugins", folder_.string()});
  EXPECT_EQ(all.exit_code, 2);
  EXPECT_THAT(all.out, AllOf(HasSubstr("opens-13"), HasSubstr("tf-98"), HasSubstr("ntc-10k-b3977")));
  EXPECT_THAT(all.err, HasSubstr("broken.json:1:"));
  EXPECT_EQ(run_program({"ratings", "my-part", "--plugins", folder_.string()}).exit_code, 2);
}

}  // namespace
}  // namespace ohmwright
