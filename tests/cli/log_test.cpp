// Logs through the real program.

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

Ran log(const std::string& text, std::vector<std::string> words = {}) {
  words.insert(words.begin(), {"log", "-"});
  return run_program(words, {}, text);
}

TEST(Log, FindsDefrostsAndWhatEndedThem) {
  const Ran ran = log(freezer(Defrosts::well), {"--ends-at", "10C"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("DEFROSTS in"), HasSubstr("ended by temperature"), HasSubstr("Run share"),
                             HasSubstr("Guessed: power is column")));
}

TEST(Log, SaysWhatToTestWhenNoneIsSeen) {
  const Ran ran = log(freezer(Defrosts::never));
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NO DEFROST SEEN"), HasSubstr("ohmwright locate")));
}

TEST(Log, JsonIsValidAgainstItsSchema) {
  const Ran ran = log(freezer(Defrosts::well), {"--format", "json"});
  EXPECT_TRUE(log_schema().problems(parse_document(ran.out, "log").root).empty());
  EXPECT_GE(nlohmann::json::parse(ran.out)["defrosts"].size(), 6U);
}

TEST(Log, PageHoldsPicturesTablesAndVerdictsAndLoadsNothing) {
  const Ran ran = log(freezer(Defrosts::until_the_time_limit), {"--format", "html"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("<h1>7 DEFROSTS"), HasSubstr("<h3>Defrost 7</h3>"), HasSubstr("<th>melting</th>"),
                    HasSubstr("ended by the time limit"), HasSubstr("Before you touch it")));
  EXPECT_THAT(ran.out, ::testing::Not(HasSubstr("http://")));
  EXPECT_THAT(ran.out, ::testing::Not(HasSubstr("<script")));
}

/// Its hours as a dial shows them: 00:05 is 12:05, 13:05 is 1:05.
std::string with_hours_of_a_dial(const std::string& log) {
  std::string text;
  std::size_t from = 0;
  for (std::size_t at = log.find(' '); at != std::string::npos; at = log.find(' ', at + 1)) {
    if (log.find(':', at) != at + 3) continue;  // of the header
    const int hour = std::stoi(log.substr(at + 1, 2));
    text += log.substr(from, at + 1 - from) + std::to_string((hour + 11) % 12 + 1);
    from = at + 3;
  }
  return text + log.substr(from);
}

// What has to be settled first ends with exit 3, whatever the rows that are left say.
TEST(Log, AsksAboutAClockOfTwelveHours) {
  const std::string dial = with_hours_of_a_dial(freezer(Defrosts::well));
  const Ran asked = log(dial);
  EXPECT_EQ(asked.exit_code, 3) << asked.out;
  EXPECT_THAT(asked.out, AllOf(HasSubstr("Settle this first"), HasSubstr("--every 60s"),
                               ::testing::Not(HasSubstr("Nothing in it asks"))));
  const Ran settled = log(dial, {"--every", "60s"});
  EXPECT_EQ(settled.exit_code, 0) << settled.out;
  EXPECT_THAT(settled.out, HasSubstr("7 DEFROSTS"));
}

TEST(Log, TextHasASmallPlotThatFits) {
  for (const int width : {40, 80}) {
    const Ran ran = log(freezer(Defrosts::well), {"--width", std::to_string(width)});
    EXPECT_THAT(ran.out, AllOf(HasSubstr("Temperature of the coil"), HasSubstr("10.3 °C |"), HasSubstr("# a defrost")));
    EXPECT_LE(widest_line(ran.out), width);
  }
}

// What a log finds is what a search for the fault takes: the words are tried on the program itself.
TEST(Log, GivesTheWordsThatLocateTakes) {
  for (const auto& [how, expected] :
       {std::pair{Defrosts::never, "no-defrost"}, std::pair{Defrosts::until_the_time_limit, "long-defrost"}}) {
    const auto json = nlohmann::json::parse(log(freezer(how), {"--format", "json"}).out);
    std::vector<std::string> words{"locate", "upright-thermistor-230v"};
    for (const auto& verdict : json["verdicts"])
      for (const auto& word : verdict["locate"]) words.push_back(word);
    EXPECT_THAT(words, ::testing::Contains(std::string(expected)));
    const Ran ran = run_program(words);
    EXPECT_NE(ran.exit_code, 2) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("What is known"));
  }
}

/// Probabilities of the parts after those words, by part.
std::map<std::string, double> part_weights(const std::string& appliance, const std::vector<std::string>& words) {
  std::vector<std::string> all{"locate", appliance, "--format", "json"};
  all.insert(all.end(), words.begin(), words.end());
  std::map<std::string, double> weights;
  const nlohmann::json answer = nlohmann::json::parse(run_program(all).out);
  for (const nlohmann::json& part : answer["parts"])
    weights[part["part"].get<std::string>()] = part["probability"].get<double>();
  return weights;
}

// Whatever a rule of a log hands over must say something there: it moves a part by a percent at least.
TEST(Log, HandsOverNoSymptomThatMovesNoPart) {
  for (const std::string appliance :
       {"bottom-freezer-board-bimetal-120v", "bottom-freezer-thermistor-230v", "combination-two-evaporators-230v",
        "display-freezer-timer-230v", "upright-shared-neutral-230v", "upright-thermistor-230v",
        "upright-timer-bimetal-120v"}) {
    const std::map<std::string, double> before = part_weights(appliance, {});
    ASSERT_FALSE(before.empty());
    for (const std::string_view symptom : cycles::log_symptoms) {
      double most = 0.0;
      for (const auto& [part, weight] : part_weights(appliance, {"--symptom", std::string(symptom)}))
        most = std::max(most, std::abs(weight - before.at(part)));
      EXPECT_GE(most, 0.01) << appliance << " " << symptom;
    }
  }
}

struct SimulatedCase {
  const char* fault;
  const char* rule;
  const char* text;
};

/// A log of a shipped appliance with that fault, read back and judged against the same appliance.
nlohmann::json judged(const std::string& fault, const std::string& seed) {
  const std::string appliance = "upright-timer-bimetal-120v";
  const Ran made = run_program({"log", "simulate", appliance, "--fault", fault, "--seed", seed, "--every", "60s"});
  EXPECT_EQ(made.exit_code, 0) << made.err;
  const Ran read = log(made.out, {"--appliance", appliance, "--line", "120V ± 1V", "--format", "json"});
  return nlohmann::json::parse(read.out);
}

TEST(SimulatedLog, IsReadBackAndJudgedRightly) {
  for (const SimulatedCase& one :
       {SimulatedCase{"none", "defrost-end", "by-temperature"}, SimulatedCase{"none", "heater-power", "right"},
        SimulatedCase{"none", "interval", "in-limits"},
        SimulatedCase{"heater.open", "heat-comes-from-heater", "no-heater"},
        SimulatedCase{"heater.one-of-two", "heater-power", "too-little"},
        SimulatedCase{"thermostat.welded-closed", "defrost-end", "by-time"},
        SimulatedCase{"thermostat.drifted-low", "defrost-end", "too-early"},
        SimulatedCase{"timer.motor-open", "defrosts-come", "none-seen"},
        SimulatedCase{"fan-stopped", "air-over-coil", "no-air"},
        SimulatedCase{"little-cooling", "compressor-stops", "never-stops"}}) {
    for (const char* seed : {"1", "2"}) {
      const nlohmann::json json = judged(one.fault, seed);
      for (const auto& verdict : json["verdicts"]) {
        if (verdict["rule"] != one.rule) continue;
        EXPECT_EQ(verdict["text_id"], one.text) << one.fault << " " << verdict;
      }
      const bool is_well = std::string(one.fault) == "none";
      EXPECT_EQ(json["asks_for_a_test"], !is_well) << one.fault;
    }
  }
}

// Both columns together show at least what either of them shows alone.
TEST(SimulatedLog, OfRowsFourMinutesApartShowsEachDefrost) {
  const Ran made = run_program({"log", "simulate", "upright-timer-bimetal-120v", "--days", "14", "--every", "4min"});
  ASSERT_EQ(made.exit_code, 0) << made.err;
  const Ran ran = log(made.out, {"--appliance", "upright-timer-bimetal-120v", "--line", "120V", "--format", "json"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_EQ(nlohmann::json::parse(ran.out)["defrosts"].size(), 15U);
}

TEST(SimulatedLog, IsTheSameForTheSameSeed) {
  const std::vector<std::string> words{"log", "simulate", "upright-thermistor-230v", "--days", "1", "--seed"};
  const auto made = [&](const std::string& seed) {
    std::vector<std::string> all = words;
    all.push_back(seed);
    return run_program(all).out;
  };
  EXPECT_EQ(made("4"), made("4"));
  EXPECT_NE(made("4"), made("5"));
}

TEST(SimulatedLog, RefusesWhatSaysNothing) {
  EXPECT_THAT(run_program({"log", "simulate"}).err, HasSubstr("needs an appliance"));
  for (const char* dry : {"vented-dryer-230v", "dishwasher-230v", "front-loader-230v", "built-in-oven-230v"}) {
    const Ran ran = run_program({"log", "simulate", dry});
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, std::string("ohmwright: log simulate makes up the log of a refrigerator or freezer, and \"") +
                           dry + "\" cools nothing\n");
  }
  EXPECT_THAT(run_program({"log", "simulate", "upright-thermistor-230v", "--fault", "heater.opn"}).err,
              HasSubstr("did you mean"));
  EXPECT_THAT(run_program({"log", "simulate", "upright-thermistor-230v", "--seed", "x"}).err,
              HasSubstr("--seed takes a whole number"));
  EXPECT_THAT(run_program({"log", "simulate", "upright-thermistor-230v", "--days", "0"}).err,
              HasSubstr("--days takes"));
  EXPECT_THAT(run_program({"log", "simulate", "upright-thermistor-230v", "--every", "1ms"}).err,
              HasSubstr("--every takes at least 10ms"));
  EXPECT_THAT(run_program({"log", "a.csv", "--seed", "1"}).err, HasSubstr("belongs to: ohmwright log simulate"));
}

TEST(Log, JudgesTheHeaterAtItsLineVoltage) {
  // 210 W at 120 V; a heater of 180 W at 115 V draws 196 W there, one of 450 W far more.
  const auto verdict = [](std::vector<std::string> words) {
    words.insert(words.end(), {"--format", "json"});
    const auto json = nlohmann::json::parse(log(freezer(Defrosts::well), words).out);
    for (const auto& one : json["verdicts"])
      if (one["rule"] == "heater-power") return one;
    return nlohmann::json();
  };
  const auto weak = verdict({"--ratings", "heater=heater-450w-120v", "--line", "120V"});
  EXPECT_EQ(weak["text_id"], "too-little");
  EXPECT_LT(weak["probability_within"].get<double>(), 0.001);
  EXPECT_EQ(weak["doubt"][0]["source"], "meter-gain");
  EXPECT_EQ(verdict({"--ratings", "heater=heater-450w-120v"})["text_id"], "no-line");
  EXPECT_THAT(log(freezer(Defrosts::well), {"--ratings", "heater"}).err, HasSubstr("--ratings takes KIND=NAME"));
}

TEST(Log, NamesNoPartFromAColumnThatNeverMoves) {
  std::string zeros = "Time;Power (W)\n";
  for (int minute = 0; minute < 4 * 1440; ++minute) {
    char row[64];
    std::snprintf(row, sizeof row, "2026-03-%02d %02d:%02d;0\n", 2 + minute / 1440, minute / 60 % 24, minute % 60);
    zeros += row;
  }
  const Ran ran = log(zeros);
  EXPECT_EQ(ran.exit_code, 3) << ran.out;
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("The column of power did not move for 96 h"), ::testing::Not(HasSubstr("--symptom"))));
}

TEST(Log, JudgesNothingByAUnitThatIsInDoubt) {
  std::string kilowatts = freezer(Defrosts::well);
  // The header says watts, the cells hold kilowatts.
  std::string text = kilowatts.substr(0, kilowatts.find('\n') + 1);
  for (std::size_t at = text.size(); at < kilowatts.size();) {
    const std::size_t end = kilowatts.find('\n', at);
    const std::size_t first = kilowatts.find(';', at);
    const std::size_t second = kilowatts.find(';', first + 1);
    text += kilowatts.substr(at, first - at + 1) +
            std::to_string(std::stod(kilowatts.substr(first + 1, second - first)) / 1000.0) +
            kilowatts.substr(second, end - second + 1);
    at = end + 1;
  }
  const Ran ran = log(text, {"--ratings", "heater=heater-450w-120v", "--line", "120V"});
  EXPECT_EQ(ran.exit_code, 3) << ran.out;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("is the unit right?"), HasSubstr("Not judged, since a unit is in doubt")));
  EXPECT_THAT(ran.out, ::testing::Not(HasSubstr("too little")));
}

TEST(SimulatedLog, HasNoFaultThatTheApplianceCannotHave) {
  const auto made = [](const std::string& fault) {
    return run_program({"log", "simulate", "upright-timer-bimetal-120v", "--fault", fault, "--seed", "11"});
  };
  for (const char* fault : {"compressor.winding-open", "timer.sensor-input-dead", "fan.electronics-dead"}) {
    EXPECT_EQ(made(fault).exit_code, 2) << fault;
    EXPECT_THAT(made(fault).err, HasSubstr("that this appliance can have")) << fault;
  }
  EXPECT_EQ(made("fan.blocked-by-ice").exit_code, 0);
}

TEST(SimulatedLog, OfDifferentFaultsIsDifferent) {
  std::set<std::string> logs;
  const std::vector<std::string> faults{"none",
                                        "heater.open",
                                        "heater.one-of-two",
                                        "timer.motor-open",
                                        "timer.stuck-in-defrost",
                                        "timer.run-contact-welded",
                                        "thermostat.welded-closed",
                                        "thermostat.drifted-low",
                                        "fan.winding-open"};
  for (const std::string& fault : faults)
    logs.insert(run_program({"log", "simulate", "upright-timer-bimetal-120v", "--fault", fault, "--seed", "11"}).out);
  EXPECT_EQ(logs.size(), faults.size());
}

// A coil far past what should have ended its defrosts is warned of, whatever ended them.
TEST(SimulatedLog, OfACoilThatGetsHotKeepsItsWarning) {
  for (const std::vector<std::string>& more :
       {std::vector<std::string>{}, {"--appliance", "upright-timer-bimetal-120v"}}) {
    const Ran made =
        run_program({"log", "simulate", "upright-timer-bimetal-120v", "--fault", "ends-late", "--every", "60s"});
    const Ran ran = log(made.out, more);
    EXPECT_THAT(ran.out, AllOf(HasSubstr("do not leave it running"), ::testing::Not(HasSubstr("impossible_value")),
                               ::testing::Not(HasSubstr("faster than a heater can"))));
  }
}

/// Only these cells of each line, by number from 0.
std::string cells_of_lines(const std::string& text, const std::set<int>& kept) {
  std::string result;
  int cell = 0;
  bool is_first = true;
  for (const char byte : text) {
    if (byte == '\n') {
      result += byte;
      cell = 0;
      is_first = true;
    } else if (byte == ',') {
      ++cell;
      if (kept.count(cell) > 0 && !is_first) result += byte;
    } else if (kept.count(cell) > 0) {
      result += byte;
      is_first = false;
    }
  }
  return result;
}

// Healthy ones, their rows five minutes apart: whatever is logged of them, nothing asks for a test.
TEST(SimulatedLog, OfAHealthyApplianceIsNotCondemnedForItsRows) {
  for (const std::string appliance :
       {"upright-timer-bimetal-120v", "display-freezer-timer-230v", "upright-shared-neutral-230v",
        "upright-thermistor-230v", "bottom-freezer-board-bimetal-120v", "combination-two-evaporators-230v"})
    for (const std::string seed : {"1", "2"}) {
      const Ran made = run_program({"log", "simulate", appliance, "--every", "300s", "--seed", seed});
      for (const std::set<int>& kept : {std::set<int>{0, 1, 2, 3}, {0, 1}, {0, 2}, {0, 3}})
        for (const std::vector<std::string>& more : {std::vector<std::string>{}, {"--appliance", appliance}}) {
          const Ran ran = log(cells_of_lines(made.out, kept), more);
          EXPECT_EQ(ran.exit_code, 0) << appliance << " seed " << seed << " columns " << kept.size() << " last "
                                      << *kept.rbegin() << " options " << more.size() << "\n"
                                      << ran.out;
        }
    }
}

TEST(SimulatedLog, OfTheAirAloneSaysWhatItCannotShow) {
  const Ran made = run_program({"log", "simulate", "upright-thermistor-230v", "--every", "60s"});
  EXPECT_THAT(
      log(cells_of_lines(made.out, {0, 3})).out,
      AllOf(::testing::AnyOf(HasSubstr("RISES OF THE AIR THAT MAY BE"), HasSubstr("NO DEFROST SHOWS IN THE AIR")),
            HasSubstr("none: it does not show whether a heater heats"),
            ::testing::Not(HasSubstr("Nothing in it asks"))));
}

TEST(Log, CountsRowsThatAreWrong) {
  std::string text = freezer(Defrosts::well);
  text.insert(text.find('\n') + 1, "2026-03-02 00:00;oops;-20.0\n");
  const Ran ran = log(text);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Rows that were wrong"), HasSubstr("first in lines 2")));
}

TEST(Log, OfLatin1IsValidJson) {
  const Ran ran =
      log("time;power (W);coil (\xB0"
          "C)\n2024-03-01 12:00:00;95,1;-18,5\n2024-03-01 12:01:00;95,2;-18,4\n"
          "2024-03-01 12:02:00;95,1;-18,3\n",
          {"--format", "json"});
  EXPECT_NE(ran.exit_code, 70) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("coil (\u00B0C)"));
}

TEST(Log, TellsGapsByTheirLines) {
  std::string text = freezer(Defrosts::well);
  const auto cut = [&](std::size_t first_line, std::size_t rows) {  // rows behind that line
    std::size_t from = 0;
    for (std::size_t line = 0; line < first_line; ++line) from = text.find('\n', from) + 1;
    std::size_t to = from;
    for (std::size_t row = 0; row < rows; ++row) to = text.find('\n', to) + 1;
    text.erase(from, to - from);
  };
  cut(500, 60);
  cut(200, 30);
  const Ran ran = log(text);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("first after lines 200, 470"), HasSubstr("after line 470 (2026-"))) << ran.out;
  const auto json = nlohmann::json::parse(log(text, {"--format", "json"}).out);
  EXPECT_EQ(json["gaps"]["count"], 2);
  EXPECT_EQ(json["gaps"]["first"][0]["after_line"], 200);
  EXPECT_EQ(json["gaps"]["longest"]["after_line"], 470);
  EXPECT_TRUE(log_schema().problems(parse_document(json.dump(), "log").root).empty());
  EXPECT_THAT(log(text, {"--format", "html"}).out, HasSubstr("first after lines 200, 470"));
}

TEST(Log, TellsDatesWhereItHasThem) {
  EXPECT_THAT(log(freezer(Defrosts::well)).out, AllOf(HasSubstr("2026-03-03 "), ::testing::Not(HasSubstr("day 2"))));
}

TEST(Log, RefusesWhatIsNoLogAndWhatItDoesNotHave) {
  EXPECT_EQ(log("").exit_code, 3);
  EXPECT_THAT(log("").out, HasSubstr("no row that could be used"));
  EXPECT_THAT(log(freezer(Defrosts::well), {"--column", "power"}).err, HasSubstr("--column takes QUANTITY=COLUMN"));
  EXPECT_THAT(log(freezer(Defrosts::well), {"--column", "power=Volts:W"}).err, HasSubstr("Volts"));
  EXPECT_THAT(log(freezer(Defrosts::well), {"--every", "0s"}).err, HasSubstr("--every takes a time above 0"));
  EXPECT_EQ(run_program({"log", "/nowhere.csv"}).exit_code, 2);
  const Ran too_long = run_program({"log", std::string(300, 'a') + ".csv"});
  EXPECT_EQ(too_long.exit_code, 2);
  EXPECT_THAT(too_long.err, HasSubstr("cannot be opened"));
}

}  // namespace
}  // namespace ohmwright
