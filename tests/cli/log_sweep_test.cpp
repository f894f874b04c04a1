// Logs of the shipped appliances, made by the program and judged by it: no healthy one is condemned, whatever columns
// it has, and each fault is, where the columns can show it.
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using testing::Ran;
using testing::run_program;

constexpr std::size_t power_column = 1;
constexpr std::size_t coil_column = 2;

/// The log with its time and these columns.
std::string columns_of(const std::string& log, const std::vector<std::size_t>& kept) {
  std::istringstream lines(log);
  std::string result;
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    result += cells.empty() ? std::string() : cells[0];
    for (const std::size_t column : kept) result += column < cells.size() ? "," + cells[column] : ",";
    result += "\n";
  }
  return result;
}

std::string simulated(const std::string& appliance, const std::string& every, int seed, const std::string& fault) {
  const Ran made = run_program({"log", "simulate", appliance, "--fault", fault, "--every", every, "--days", "4",
                                "--seed", std::to_string(seed)});
  EXPECT_EQ(made.exit_code, 0) << appliance << made.err;
  return made.out;
}

TEST(LogSweep, CondemnsNoHealthyLogWhateverItHolds) {
  const std::vector<std::vector<std::size_t>> held{{power_column}, {coil_column}, {power_column, coil_column}};
  for (const char* appliance : {"bottom-freezer-board-bimetal-120v", "bottom-freezer-thermistor-230v",
                                "combination-two-evaporators-230v", "display-freezer-timer-230v",
                                "upright-shared-neutral-230v", "upright-thermistor-230v", "upright-timer-bimetal-120v"})
    for (const char* every : {"60s", "300s"})
      for (int seed = 1; seed <= 3; ++seed) {
        const std::string log = simulated(appliance, every, seed, "none");
        for (const std::vector<std::size_t>& kept : held) {
          const Ran ran = run_program({"log", "-"}, {}, columns_of(log, kept));
          EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3)
              << appliance << " every " << every << " seed " << seed << " columns " << kept.size() << "\n"
              << ran.out;
        }
      }
}

struct ShownFault {
  const char* fault;
  std::vector<std::size_t> kept;
  bool has_ratings = false;
};

TEST(LogSweep, CondemnsEachFaultWhereTheColumnsShowIt) {
  const std::string appliance = "upright-timer-bimetal-120v";
  for (const ShownFault& shown :
       {ShownFault{"heater.open", {power_column, coil_column}}, ShownFault{"heater.one-of-two", {power_column}, true},
        ShownFault{"timer.stuck-in-run", {power_column, coil_column}},
        ShownFault{"timer.stuck-in-run", {power_column}, true},
        ShownFault{"thermostat.welded-closed", {power_column, coil_column}},
        ShownFault{"thermostat.welded-closed", {coil_column}},
        ShownFault{"thermostat.stuck-open", {power_column, coil_column}},
        ShownFault{"thermostat.drifted-low", {power_column, coil_column}, true}}) {
    std::vector<std::string> words{"log", "-"};
    if (shown.has_ratings) words.insert(words.end(), {"--appliance", appliance, "--line", "120V"});
    const Ran ran = run_program(words, {}, columns_of(simulated(appliance, "60s", 2, shown.fault), shown.kept));
    EXPECT_EQ(ran.exit_code, 1) << shown.fault << " of " << shown.kept.size() << " columns\n" << ran.out;
  }
}

// What the rules take for the least that a heater draws lies below every class that is shipped, at 90 % of its voltage.
TEST(LogSweep, TakesNoShippedHeaterForTooWeak) {
  const std::filesystem::path folder = std::filesystem::path(OHMWRIGHT_SOURCE_DIR) / "plugins/heater/ratings";
  int classes = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const nlohmann::json ratings = nlohmann::json::parse(std::ifstream(entry.path()))["ratings"];
    const auto number = [&](const char* name) { return std::stod(ratings[name]["value"].get<std::string>()); };
    const std::string unit = ratings["power"]["value"].get<std::string>();
    const double watt = number("power") * (unit.find("kW") != std::string::npos ? 1000.0 : 1.0);
    EXPECT_GE(0.9 * 0.81 * watt, cycles::weakest_heater_watt - 1e-9) << entry.path();
    EXPECT_GE(0.81 * watt / number("voltage"), cycles::weakest_heater_ampere - 1e-9) << entry.path();
    ++classes;
  }
  EXPECT_GE(classes, 6);
}

}  // namespace
}  // namespace ohmwright
