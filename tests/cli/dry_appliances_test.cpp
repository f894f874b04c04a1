// What cools nothing speaks of no cooling: dryers, dishwashers, washing machines and ovens are made of parts of their
// own.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::Ran;
using testing::run_program;
using ::testing::SizeIs;

/// The names of the shipped appliances that have no refrigerant.
std::vector<std::string> dry_appliances() {
  std::vector<std::string> names;
  for (const auto& entry :
       std::filesystem::directory_iterator(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances")) {
    const nlohmann::json file = nlohmann::json::parse(std::ifstream(entry.path()));
    if (file["refrigerant"] == "none") names.push_back(file["appliance"]);
  }
  return names;
}

/// The lines that speak of cooling.
std::vector<std::string> lines_of_cooling(const std::string& printed) {
  static const std::regex words("frost|evaporator|compressor|whole coil|first turns|[Cc]abinet is|[Ff]ood",
                                std::regex::icase);
  std::vector<std::string> found;
  std::istringstream lines(printed);
  for (std::string line; std::getline(lines, line);)
    if (std::regex_search(line, words)) found.push_back(line);
  return found;
}

TEST(DryAppliances, SpeakOfNoCooling) {
  const std::vector<std::string> names = dry_appliances();
  ASSERT_GE(names.size(), 6U);
  for (const std::string& name : names) {
    EXPECT_THAT(lines_of_cooling(run_program({"appliance", "show", name}).out), SizeIs(0)) << name;
    EXPECT_THAT(lines_of_cooling(run_program({"locate", name, "--symptom", "no-heat"}).out), SizeIs(0)) << name;
    EXPECT_THAT(lines_of_cooling(run_program({"locate", name, "--plan"}).out), SizeIs(0)) << name;
    EXPECT_THAT(lines_of_cooling(run_program({"locate", name, "--symptom", "xyz"}).err), SizeIs(0)) << name;
  }
}

TEST(DryAppliances, TakeNoSymptomOfCooling) {
  for (const char* symptom :
       {"long-defrost", "frost-whole-coil", "warm-food-after-defrost", "compressor-never-stops"}) {
    const Ran ran = run_program({"locate", "vented-dryer-230v", "--symptom", symptom});
    EXPECT_EQ(ran.exit_code, 2) << symptom;
    EXPECT_THAT(ran.err,
                HasSubstr("\"" + std::string(symptom) +
                          "\" is no symptom of \"vented-dryer-230v\", which cools nothing; it may show: no-heat"));
  }
}

TEST(DryAppliances, AreSearchedByWhatTheyShow) {
  const auto likeliest = [](std::vector<std::string> words) {
    words.insert(words.begin(), "locate");
    words.insert(words.end(), {"--format", "json"});
    const nlohmann::json parts = nlohmann::json::parse(run_program(words).out)["parts"];
    const auto less = [](const nlohmann::json& one, const nlohmann::json& other) {
      return one["probability"] < other["probability"];
    };
    return std::max_element(parts.begin(), parts.end(), less)->at("part").get<std::string>();
  };
  EXPECT_EQ(likeliest({"vented-dryer-230v", "--symptom", "too-hot"}), "cycling");
  EXPECT_EQ(likeliest({"vented-dryer-230v", "--symptom", "drum-stands"}), "motor");
  // What a blocked vent blows.
  EXPECT_EQ(likeliest({"vented-dryer-230v", "--symptom", "no-heat", "--symptom", "laundry-stays-wet"}), "link");
  EXPECT_EQ(likeliest({"dishwasher-230v", "--symptom", "dishes-cold", "--symptom", "no-heat"}), "heater");
  EXPECT_EQ(likeliest({"dishwasher-230v", "--symptom", "pump-silent"}), "pump");
}

/// A safety limit that opens later protects less, by however little.
TEST(DryAppliances, NoLimitThatOpensLaterStandsIn) {
  const std::string file = "/tmp/ohmwright-later-limit-" + std::to_string(::getpid()) + ".json";
  std::ofstream(file) << R"({"kind": "high-limit-thermostat", "name": "later", "title": "opens at 96 °C",
    "source": "ours", "ratings": {"opens": "96 degC", "closes": "70 degC"}})";
  for (const std::string& later : {file, std::string("high-limit-120")}) {
    const Ran ran = run_program({"compare", "high-limit-thermostat", "high-limit-95", later});
    EXPECT_EQ(ran.exit_code, 1) << later;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("NOT EQUIVALENT"), HasSubstr("original")));
    EXPECT_THAT(lines_of_cooling(ran.out), SizeIs(0));
  }
  EXPECT_EQ(run_program({"compare", "high-limit-thermostat", "high-limit-95", "high-limit-95"}).exit_code, 0);
  std::filesystem::remove(file);
  for (const char* gone : {"limit-95", "limit-120", "cycling-60"})
    EXPECT_EQ(run_program({"compare", "bimetal-thermostat", gone, gone}).exit_code, 2) << gone;
}

}  // namespace
}  // namespace ohmwright
