// Logs of the shipped appliances, made by the program and judged by it: no healthy one is condemned, whatever columns
// it has, and each fault is, where the columns can show it.
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/cycles/weakest_heater.hpp>

#include "program.hpp"
#include "thorough.hpp"

namespace ohmwright {
namespace {

using testing::Ran;
using testing::run_program;

constexpr std::size_t power_column = 1;
constexpr std::size_t coil_column = 2;
constexpr std::size_t air_column = 3;

constexpr const char* cold_appliances[] = {"bottom-freezer-board-bimetal-120v", "bottom-freezer-thermistor-230v",
                                           "combination-two-evaporators-230v",  "display-freezer-timer-230v",
                                           "upright-shared-neutral-230v",       "upright-thermistor-230v",
                                           "upright-timer-bimetal-120v"};

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

/// Every so many rows of the log, from the row `first` on: a logger's spot readings.
std::string thinned(const std::string& log, std::size_t step, std::size_t first) {
  std::istringstream lines(log);
  std::string result;
  std::string line;
  std::getline(lines, line);
  result = line + "\n";
  for (std::size_t row = 0; std::getline(lines, line); ++row)
    if (row % step == first) result += line + "\n";
  return result;
}

std::string simulated(const std::string& appliance, const std::string& every, int seed, const std::string& fault,
                      const std::string& days = "4") {
  const Ran made = run_program({"log", "simulate", appliance, "--fault", fault, "--every", every, "--days", days,
                                "--seed", std::to_string(seed)});
  EXPECT_EQ(made.exit_code, 0) << appliance << made.err;
  return made.out;
}

void expect_not_condemned(const std::string& log, const std::string& what) {
  const Ran ran = run_program({"log", "-"}, {}, log);
  EXPECT_TRUE(ran.exit_code == 0 || ran.exit_code == 3) << what << "\n" << ran.out;
}

TEST(LogSweep, CondemnsNoHealthyLogWhateverItHolds) {
  const std::vector<std::vector<std::size_t>> held{{power_column}, {coil_column}, {power_column, coil_column}};
  for (const char* appliance : cold_appliances)
    for (const char* every : {"60s", "300s"})
      for (int seed = 1; seed <= 3; ++seed) {
        const std::string log = simulated(appliance, every, seed, "none");
        for (const std::vector<std::size_t>& kept : held)
          expect_not_condemned(columns_of(log, kept), std::string(appliance) + " every " + every + " seed " +
                                                          std::to_string(seed) + " columns " +
                                                          std::to_string(kept.size()));
      }
}

/// The columns that loggers write, alone and together.
std::vector<std::vector<std::size_t>> all_that_loggers_hold() {
  return {{power_column},
          {coil_column},
          {power_column, coil_column},
          {power_column, coil_column, air_column},
          {coil_column, air_column}};
}

// Loggers of temperature are set to 10, 15 or 30 minutes more often than not: a week of their rows steps over heatings,
// and over the coil's rises, too.
TEST(LogSweep, CondemnsNoHealthyLogOfRowsFarApart) {
  const std::vector<std::vector<std::size_t>> held = all_that_loggers_hold();
  for (const char* appliance : cold_appliances)
    for (const char* every : {"300s", "420s", "600s", "720s", "900s", "1800s", "3600s"}) {
      const std::string log = simulated(appliance, every, 1, "none", "8");
      for (const std::vector<std::size_t>& kept : held)
        expect_not_condemned(columns_of(log, kept), std::string(appliance) + " every " + every + " from column " +
                                                        std::to_string(kept.front()) + ", " +
                                                        std::to_string(kept.size()) + " of them");
    }
}

TEST(LogSweep, CondemnsNoHealthyLogOfSpotReadings) {
  const std::vector<std::vector<std::size_t>> held{
      {coil_column}, {power_column, coil_column}, {coil_column, air_column}};
  for (const char* appliance : {"upright-thermistor-230v", "upright-timer-bimetal-120v"}) {
    const std::string log = simulated(appliance, "60s", 1, "none", "8");
    for (const std::size_t minutes : {5U, 10U, 15U, 20U, 30U, 60U, 120U})
      for (const std::vector<std::size_t>& kept : held)
        expect_not_condemned(columns_of(thinned(log, minutes, minutes / 3), kept),
                             std::string(appliance) + " each " + std::to_string(minutes) + " min from column " +
                                 std::to_string(kept.front()) + ", " + std::to_string(kept.size()) + " of them");
  }
}

// The other side: no log of a week in which a dead appliance never defrosts passes, however far apart its rows are. It
// is condemned, or something is asked.
TEST(LogSweep, PassesNoLogWithoutADefrostWhateverItHolds) {
  const std::vector<std::vector<std::size_t>> held = all_that_loggers_hold();
  const std::vector<const char*> periods =
      testing::is_thorough() ? std::vector<const char*>{"60s", "300s", "420s", "600s", "720s", "900s", "1800s", "3600s"}
                             : std::vector<const char*>{"60s", "600s", "3600s"};
  for (const char* appliance : cold_appliances)
    for (const char* fault : {"never-starts", "no-heat"})
      for (const char* every : periods) {
        const std::string log = simulated(appliance, every, 1, fault, "8");
        for (const std::vector<std::size_t>& kept : held) {
          const Ran ran = run_program({"log", "-"}, {}, columns_of(log, kept));
          EXPECT_TRUE(ran.exit_code == 1 || ran.exit_code == 3)
              << appliance << " " << fault << " every " << every << " from column " << kept.front() << ", "
              << kept.size() << " of them\n"
              << ran.out;
          EXPECT_EQ(ran.out.find("Nothing in it asks"), std::string::npos) << ran.out;
        }
      }
}

// What is due and does not come is left open, too, where rows would not have shown it, and told by closer rows.
TEST(LogSweep, AsksForCloserRowsWhereTheyCannotShowAFault) {
  const std::vector<std::size_t> kept{power_column, coil_column};
  const std::string appliance = "upright-timer-bimetal-120v";
  const std::string far = simulated(appliance, "900s", 1, "timer.stuck-in-run", "8");
  const Ran open = run_program({"log", "-"}, {}, columns_of(far, kept));
  EXPECT_EQ(open.exit_code, 3) << open.out;
  EXPECT_NE(open.out.find("the coil every 5 minutes or less"), std::string::npos) << open.out;
  EXPECT_LT(open.out.find("Settle this first"), open.out.find("though they should come")) << open.out;
  for (const char* every : {"300s", "420s", "600s"}) {
    const std::string close = simulated(appliance, every, 1, "timer.stuck-in-run", "8");
    EXPECT_EQ(run_program({"log", "-"}, {}, columns_of(close, {coil_column})).exit_code, 1) << every;
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
