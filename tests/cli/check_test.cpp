// The main job through the real program: what a technician types, and what they read.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

constexpr const char* ten_kilohm = "ntc-10k-b3977";

Ran check(std::vector<std::string> words) {
  words.insert(words.begin(), {"check", "defrost-sensor"});
  return run_program(words);
}

TEST(Check, ASensorNearRoomTemperatureThatReadsElevenKilohmPasses) {
  // Trade fact: a sensor of the 10 kΩ class reads close to 11 kΩ near room temperature (common practice, no source).
  const Ran ran = check({"11.0k", "--at", "23C ± 0.5K", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("IN SPEC: Defrost sensor"), HasSubstr("Unplug it"),
                             HasSubstr("Where the doubt comes from"), HasSubstr("11.00 kΩ")));
}

TEST(Check, MoreThanTenPercentOffCondemns) {
  // Trade fact: replace a sensor that is more than 10 % off (common practice, no source).
  const Ran ran = check({"13.5k", "--at", "23C", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("OUT OF SPEC"));
}

TEST(Check, NoContinuityCondemns) {
  // Trade fact: a sensor without continuity is open (common practice, no source).
  const Ran ran = check({"OL", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
}

TEST(Check, NoContinuityCondemnsWithoutAnyRatings) { EXPECT_EQ(check({"OL"}).exit_code, 1); }

TEST(Check, AMarginalReadingNamesItsLargestDoubtAndWhatWouldDecide) {
  const Ran ran = check({"11.45k", "--at", "23C", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 3) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("CAN'T TELL YET"), HasSubstr("What to do next"), HasSubstr("ice")));
}

TEST(Check, AnswersInTheUnitThatWasTyped) {
  const Ran ran = check({"10k7", "--at", "73.4F", "--ratings", ten_kilohm});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("73.4"), HasSubstr("°F"), Not(HasSubstr("°C ± "))));
  EXPECT_THAT(ran.out, HasSubstr("10.70 kΩ"));
}

TEST(Check, TakesWhatPeopleSay) {
  EXPECT_EQ(run_program({"check", "thermistor", "OL"}).exit_code, 1);
  EXPECT_EQ(run_program({"check", "coil", "sensor", "OL"}).exit_code, 2);
  EXPECT_EQ(run_program({"check", "coil sensor", "OL"}).exit_code, 1);
}

TEST(Check, SeveralReadingsAtSeveralTemperaturesAreJudgedTogether) {
  const Ran ran = check({"10.92k", "--at", "23C", "32.6k", "--at", "0C ± 0.2K", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
}

TEST(Check, ScatteredReadingsAreNoShort) {
  const Ran ran = check({"11k", "110k", "--at", "23C", "--lead-off", "--ratings", ten_kilohm});
  EXPECT_NE(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Why"));
  EXPECT_THAT(ran.out, Not(HasSubstr("within the test leads")));
}

TEST(Check, ATemperatureTypedLastReachesTheWetReadingToo) {
  // 25.0 kΩ wet and 33.0 kΩ dry in one ice bath: about 100 kΩ of moisture beside the sensor.
  const Ran ran =
      check({"--lead-off", "25.0k", "--wet", "33.0k", "--dry", "--at", "0C ± 0.2K", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
}

TEST(Check, InCircuitNeverPasses) {
  const Ran ran = check({"--in-circuit", "10.92k", "--at", "23C ± 0.2K", "--ratings", ten_kilohm});
  EXPECT_NE(ran.exit_code, 0) << ran.out;
}

TEST(Check, ASeriesOfAFileIsJudgedAsOne) {
  // The readings of SeveralReadingsAtSeveralTemperaturesAreJudgedTogether, from a spreadsheet.
  const std::string path = "/tmp/ohmwright-series-" + std::to_string(::getpid()) + ".csv";
  std::ofstream(path) << "time;at [degC];resistance [kohm]\r\n0;23,0;10,92\r\n60;0,0 ± 0,2;32,6\r\n";
  const Ran ran = check({"--series", path, "--lead-off", "--ratings", ten_kilohm});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("10.92 kΩ"), HasSubstr("32.60 kΩ")));
  const Ran twice = check({"--series", path, "--series", path});
  EXPECT_EQ(twice.exit_code, 2);
  EXPECT_THAT(twice.err, HasSubstr("--series is given twice"));
  std::ofstream(path) << "att,resistance\n23C,x\n";
  const Ran wrong = check({"--series", path});
  EXPECT_EQ(wrong.exit_code, 2);
  EXPECT_THAT(wrong.err, AllOf(HasSubstr(path + ":1: "), HasSubstr("did you mean \"at\"?"), HasSubstr(path + ":2: ")));
  std::filesystem::remove(path);
}

TEST(Check, AnUnstatedTemperatureAndMeterAreSaidToBeAssumed) {
  const Ran ran = check({"11.0k", "--at", "23C", "--ratings", ten_kilohm});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("doubt assumed"), HasSubstr("assumed; name yours with --meter")));
}

TEST(Check, AboveTenKilohmFingersStayOffTheProbes) {
  EXPECT_THAT(check({"11.0k", "--at", "23C"}).out, HasSubstr("fingers off the probe tips"));
  EXPECT_THAT(check({"1.1k", "--at", "23C"}).out, Not(HasSubstr("fingers off the probe tips")));
}

TEST(Check, FitsTheWidthItIsGiven) {
  for (const int width : {40, 80}) {
    const Ran ran = check({"11.0k", "--at", "23C", "--ratings", ten_kilohm, "--width", std::to_string(width)});
    std::istringstream lines(ran.out);
    for (std::string line; std::getline(lines, line);) {
      int columns = 0;
      for (const char c : line) columns += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
      EXPECT_LE(columns, width) << line;
    }
  }
}

TEST(Check, ColourIsForTerminalsAndTheAsking) {
  EXPECT_THAT(check({"OL"}).out, Not(HasSubstr("\033[")));
  EXPECT_THAT(check({"OL", "--colour", "always"}).out, HasSubstr("\033["));
}

TEST(Check, JsonHoldsWhatThePageSays) {
  const Ran ran = check({"11.0k", "--at", "23C", "--ratings", ten_kilohm, "--format", "json"});
  const nlohmann::json verdict = nlohmann::json::parse(ran.out);
  EXPECT_EQ(verdict["kind"], "defrost-sensor");
  EXPECT_EQ(verdict["part"], ten_kilohm);
  EXPECT_TRUE(verdict["probability_within"].is_number());
  EXPECT_EQ(verdict["reasons"][0]["measured"]["unit"], "ohm");
  EXPECT_FALSE(verdict["cautions"].empty());
  double shares = 0.0;
  for (const auto& share : verdict["budget"]) shares += share["share"].get<double>();
  EXPECT_NEAR(shares, 1.0, 1e-9);
}

TEST(Check, APerfectSensorAtMinusTwentyIsNotCondemnedByTwoPointRatings) {
  // The real material (four-coefficient set, component sheet) reads 96.36 kΩ at −20 °C; its two-point beta 3977 K says
  // 107.09 kΩ, 10 % more: outside the span of the beta, the curve itself is in doubt.
  const Ran ran = check({"96.36k", "--at", "-20C ± 0.3K", "--ratings", "ntc-10k-b3977-2"});
  EXPECT_NE(ran.exit_code, 1) << ran.out;
  EXPECT_EQ(ran.err, "");
}

TEST(Kinds, TellsWhereEachIsShown) { EXPECT_THAT(run_program({"kinds"}).out, HasSubstr("ohmwright kinds KIND:")); }

TEST(Kinds, ListsKindsWithWhatPeopleSay) {
  const Ran ran = run_program({"kinds"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("defrost-sensor"), HasSubstr("thermistor"), Not(HasSubstr("Refused"))));
}

TEST(Kinds, ShowsRulesAndProceduresWithTheirCautionsFirst) {
  const Ran ran = run_program({"kinds", "thermistor"});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("resistance-at-temperature"), HasSubstr("  ! Unplug the appliance")));
}

TEST(Ratings, ListsTheClassesAndShowsTheSourceOfEachFigure) {
  EXPECT_THAT(run_program({"ratings"}).out, AllOf(HasSubstr("ntc-10k-b3977"), HasSubstr("pt1000-class-b")));
  EXPECT_THAT(run_program({"ratings", ten_kilohm}).out, HasSubstr("["));
}

TEST(Vectors, AllAgree) {
  const Ran ran = run_program({"vectors"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, HasSubstr(" 0 differ"));
}

TEST(Chart, ShowsWhatAGoodPartReadsInEveryFormat) {
  const std::vector<std::string> words{"chart",  "thermistor", "11.0k@23C", "--ratings", ten_kilohm,
                                       "--from", "-20C",       "--to",      "30C",       "--format"};
  for (const auto& [format, expected] : std::vector<std::pair<std::string, std::string>>{
           {"text", "32.55 kΩ"}, {"json", "\"nominal\""}, {"csv", "part_temperature [degC]"}, {"html", "<table>"}}) {
    std::vector<std::string> all = words;
    all.push_back(format);
    const Ran ran = run_program(all);
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr(expected));
  }
}

TEST(Chart, RefusesWhatCannotBeDrawn) {
  const auto error = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"chart", "thermistor"});
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 2);
    return ran.err;
  };
  EXPECT_EQ(error({}),
            "ohmwright: a chart needs the part's ratings: --ratings NAME or a file (see: ohmwright ratings)\n");
  EXPECT_EQ(error({"--ratings", ten_kilohm, "--from", "30C", "--to", "20C"}),
            "ohmwright: --from must lie below --to\n");
  EXPECT_EQ(error({"--ratings", ten_kilohm, "--step", "0.01K"}),
            "ohmwright: --step must be positive and give at most 500 rows\n");
  EXPECT_EQ(error({"--ratings", ten_kilohm, "--of", "speed"}),
            "ohmwright: a defrost-sensor has no chart of \"speed\"; it has: resistance\n");
  EXPECT_EQ(
      error({"11.0k", "--ratings", ten_kilohm}),
      "ohmwright: this chart marks a resistance where its --at is said; type a number and that behind each reading "
      "(ohmwright chart KIND READING --at VALUE), or choose another chart with --of\n");
}

// How fast and with how much current a motor runs has no chart: what can be charted is named, and how it is judged.
TEST(Chart, NamesAWayOnWhereRatingsHaveNone) {
  for (const char* name : {"ec-12v", "capacitor-run-230v"}) {
    const Ran ran = run_program({"chart", "fan", "--ratings", name});
    EXPECT_EQ(ran.exit_code, 2);
    EXPECT_EQ(ran.err,
              "ohmwright: these ratings say nothing of winding along part_temperature (--at), and a fan-motor of these "
              "ratings has nothing else to chart; classes that have: shaded-pole-120v, shaded-pole-230v (--ratings "
              "NAME). Without a chart a reading is held against its limits by ohmwright check fan-motor READING "
              "--ratings NAME\n");
  }
}

TEST(Check, SaysWhatAControlBelievesOfTheReading) {
  const Ran ran =
      check({"22.3k", "--at", "10C ± 0.2K", "--lead-off", "--ratings", ten_kilohm, "--control", "pull-up-10k-5v"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("the control believes 7.6 °C"));
  const Ran without = check({"22.3k", "--at", "10C", "--control", "pull-up-10k-5v"});
  EXPECT_EQ(without.exit_code, 2);
  EXPECT_EQ(without.err,
            "ohmwright: --control says what reads the part; name the part's own ratings too (--ratings)\n");
}

TEST(Check, AsAPageShowsTheReadingAgainstItsLimits) {
  const Ran ran = check({"11.45k@23C", "--ratings", ten_kilohm, "--format", "html"});
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("<h1>CAN&#39;T TELL YET"), HasSubstr("class=\"bar\""), HasSubstr("<img src=\"data:")));
}

/// What is held against what depends on the kind: a state against trip points, a speed against its limits alone.
TEST(Check, AsAPageShowsStatesAndWhatDependsOnNothing) {
  const auto page = [](std::vector<std::string> words) {
    words.insert(words.begin(), "check");
    words.insert(words.end(), {"--format", "html"});
    return run_program(words).out;
  };
  EXPECT_THAT(page({"bimetal-thermostat", "closed", "--at", "-18C", "--lead-off", "--ratings", "opens-13"}),
              HasSubstr("alt=\"The reading against what good parts read\""));
  EXPECT_THAT(page({"thermal-link", "closed", "--at", "23C", "--lead-off", "--ratings", "tf-72"}),
              HasSubstr("alt=\"The reading against what good parts read\""));
  EXPECT_THAT(page({"fan", "speed=1550rpm", "current=0.24A", "--live-agreed", "--ratings", "shaded-pole-120v"}),
              AllOf(HasSubstr("alt=\"What was read against the limits of good parts\""),
                    Not(HasSubstr("alt=\"The reading against what good parts read\""))));
}

TEST(Chart, OfAThermostatReachesAsFarAsItSwitches) {
  const auto chart = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"chart", "bimetal-thermostat"});
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    return ran.out;
  };
  // One that opens at 60 °C was drawn from -30 to 30 °C.
  const std::filesystem::path warm =
      std::filesystem::temp_directory_path() / ("ohmwright-opens-60-" + std::to_string(::getpid()) + ".json");
  std::ofstream(warm) << R"({"kind": "bimetal-thermostat", "name": "opens-60", "title": "opens at 60 °C",
    "source": "ours", "ratings": {"opening": {"temperature": "60 degC", "tolerance": "4 K"},
    "closing": {"temperature": "50 degC", "tolerance": "5 K"}}})";
  EXPECT_THAT(chart({"--ratings", warm.string(), "--format", "csv"}), HasSubstr("\n60,warming,"));
  std::filesystem::remove(warm);
  EXPECT_THAT(chart({"--ratings", "opens-13", "--format", "csv"}), AllOf(HasSubstr("\n-30,"), HasSubstr("\n30,")));
  EXPECT_THAT(chart({"open", "--at", "60C", "--ratings", "opens-13", "--format", "csv"}), HasSubstr("\n60,warming,"));
  EXPECT_THAT(chart({"closed", "--at", "-18C", "--ratings", "opens-13"}), HasSubstr("X what was seen"));
  EXPECT_THAT(chart({"--ratings", "opens-13", "--from", "0F", "--to", "60F", "--step", "20F", "--format", "csv"}),
              AllOf(HasSubstr("part_temperature [degF]"), HasSubstr("\n20,warming,,,,,1\n")));
}

TEST(Compare, AClassStandsInForItself) {
  for (const auto& [kind, name] : std::vector<std::pair<std::string, std::string>>{{"heater", "heater-450w-120v"},
                                                                                   {"thermal-link", "tf-72"},
                                                                                   {"relay", "coil-12v-400mw"},
                                                                                   {"inlet-valve", "valve-120v-900"}}) {
    const Ran ran = run_program({"compare", kind, name, name});
    EXPECT_EQ(ran.exit_code, 0) << kind << ran.out << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("EQUIVALENT:"));
  }
}

TEST(Compare, WhatNobodyKnowsIsEquivalentToNothing) {
  const Ran ran = run_program({"compare", "bimetal-thermostat", "any-defrost", "any-defrost", "--width", "200"});
  EXPECT_EQ(ran.exit_code, 3) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(Not(HasSubstr("EQUIVALENT:")), HasSubstr("is not known")));
}

TEST(Compare, ALinkOfAnotherTemperatureIsAnotherPart) {
  const Ran ran = run_program({"compare", "thermal-link", "tf-72", "tf-184", "--width", "200"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NOT EQUIVALENT"), HasSubstr("What no ratings state")));
}

TEST(Compare, AControlTellsWhereTheDefrostWouldEnd) {
  const std::vector<std::string> words{"compare", "thermistor", ten_kilohm, "ntc-10k-b3435", "--width", "200"};
  EXPECT_THAT(run_program(words).out, HasSubstr("temperature its control ends it"));
  std::vector<std::string> with = words;
  with.insert(with.end(), {"--control", "pull-up-10k-5v"});
  const Ran ran = run_program(with);
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Set to end the defrost at 10.0 °C, the control would end it at"));
}

/// Of a file that states a field twice all that is wrong is told at once.
TEST(Check, AFieldThatStandsTwiceHidesNothing) {
  const std::string file = (std::filesystem::temp_directory_path() / "ohmwright-field-twice.json").string();
  std::ofstream(file)
      << "{\"readings\": [\n{\"value\": \"11 kohm\",\n\"value\": \"12 kohm\"},\n{\"valeu\": \"1 ohm\"}]}";
  const Ran ran = check({"--readings", file, "--ratings", ten_kilohm});
  std::filesystem::remove(file);
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err,
              AllOf(HasSubstr(":3: /readings/0/value: the field \"value\" stands twice, first on line 2; keep one"),
                    HasSubstr(":4: /readings/1/valeu: unknown field \"valeu\"; did you mean \"value\"?")));
}

TEST(Help, EveryVerbHasItsOwnWithAnExampleThatWorks) {
  for (const char* verb : {"check", "chart", "kinds", "ratings", "vectors"}) {
    const Ran help = run_program({verb, "--help"});
    EXPECT_EQ(help.exit_code, 0) << verb;
    const std::size_t at = help.out.rfind("\n  ohmwright ");
    ASSERT_NE(at, std::string::npos) << help.out;
    std::istringstream example(help.out.substr(at + 13));
    std::vector<std::string> words;
    for (std::string word; example >> word;) words.push_back(word);
    const Ran ran = run_program(words);
    // The example of check knows no class of any kind, so its answer is that nobody can tell yet.
    EXPECT_EQ(ran.exit_code, std::string(verb) == "check" ? 3 : 0) << verb << ran.err;
    EXPECT_NE(ran.out, "") << verb;
  }
}

TEST(Help, AnActionHasItsOwn) {
  const auto help_of = [](const char* verb, const char* action) { return run_program({verb, action, "--help"}).out; };
  EXPECT_THAT(help_of("job", "read"), AllOf(HasSubstr("ohmwright job read TESTPOINT"), HasSubstr("--from ADDRESS"),
                                            HasSubstr("--CONDITION VALUE"), Not(HasSubstr("--earth-bond"))));
  EXPECT_THAT(help_of("course", "make"), AllOf(HasSubstr("--seed N"), Not(HasSubstr("--weights"))));
  EXPECT_THAT(help_of("plugin", "new"), AllOf(HasSubstr("--like SORT"), Not(HasSubstr("--ratings"))));
  EXPECT_EQ(help_of("job", "nosuch"), run_program({"job", "--help"}).out) << "the whole verb lists the actions";
}

TEST(Check, NamesASlipOfTheDecimalPoint) {
  const Ran ran =
      run_program({"check", "thermistor", "1.1k", "--at", "23C", "--lead-off", "--ratings", "ntc-10k-b3977"});
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_THAT(ran.out, HasSubstr("would be right as 11.00 kΩ"));
  const Ran leaking =
      run_program({"check", "thermistor", "6k", "--at", "23C", "--lead-off", "--ratings", "ntc-10k-b3977"});
  EXPECT_THAT(leaking.out, Not(HasSubstr("would be right as")));
}

TEST(Check, JsonTellsTheCircumstancesOfEachReading) {
  const Ran ran = run_program({"check", "thermistor", "9.2k", "--lead-off", "--wet", "--at", "20C", "--range", "60k",
                               "--proved-dead", "--ratings", ten_kilohm, "--format", "json"});
  const nlohmann::json reading = nlohmann::json::parse(ran.out).at("readings").at(0);
  EXPECT_EQ(reading.at("connection"), "lead-off");
  EXPECT_EQ(reading.at("moisture"), "wet");
  EXPECT_EQ(reading.at("supply"), "proved-dead");
  EXPECT_EQ(reading.at("range").at("value"), 60e3);
}

TEST(Check, AHeaterInSpecIsNotYetSafeToEnergise) {
  // EN 50699: insulation is tested with 500 V; what an ohmmeter shows proves none.
  const Ran not_read = run_program({"check", "heater", "32", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(not_read.exit_code, 0) << not_read.err;
  EXPECT_THAT(not_read.out, HasSubstr("  Not yet proved safe to energise: Insulation to the frame.\n"));
  const Ran by_ohmmeter =
      run_program({"check", "heater", "32", "insulation=OL", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(by_ohmmeter.exit_code, 3) << by_ohmmeter.err;
  EXPECT_THAT(by_ohmmeter.out, HasSubstr("do not energise it"));
  const Ran tested = run_program(
      {"check", "heater", "32", "insulation=20Mohm", "--test", "500V", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_EQ(tested.exit_code, 0) << tested.err;
  EXPECT_THAT(tested.out, Not(HasSubstr("Not yet proved")));
}

// Ohm: 120 V on half an ohm are 240 A. Whatever leaves open whose short it is, nobody energises that.
TEST(Check, AShortToTheFrameIsNotToBeEnergisedHoweverItWasRead) {
  const auto page = [](const std::vector<std::string>& readings) {
    std::vector<std::string> words{"check", "heater"};
    words.insert(words.end(), readings.begin(), readings.end());
    words.insert(words.end(), {"--ratings", "heater-450w-120v", "--width", "300"});
    return run_program(words).out;
  };
  const std::string behind = page({"32", "--lead-off", "insulation=0.5ohm"});
  EXPECT_THAT(behind, HasSubstr("CAN'T TELL YET, DO NOT ENERGISE: Heater"));
  EXPECT_THAT(behind, HasSubstr("(--lead-off before"));
  EXPECT_THAT(behind, Not(HasSubstr("is within limits")));
  const std::string there = page({"32", "--lead-off", "insulation=0.5ohm", "--in-circuit"});
  EXPECT_THAT(there, HasSubstr("CAN'T TELL YET, DO NOT ENERGISE: Heater"));
  EXPECT_THAT(there, HasSubstr("but it was read in circuit"));
  EXPECT_THAT(there, Not(HasSubstr("it was not said")));
  const std::string off = page({"--lead-off", "32", "insulation=0.5ohm"});
  EXPECT_THAT(off, HasSubstr("OUT OF SPEC, DO NOT ENERGISE: Heater"));
  EXPECT_THAT(off, HasSubstr("no drying mends that"));
  EXPECT_THAT(off, Not(HasSubstr("dry it warm")));
}

// EN 50699 (from memory): insulation is tested with 500 V, so that what was not, in spec or not, is not proved safe.
TEST(Check, JsonTellsWhatIsNotYetProvedSafe) {
  const auto not_proved = [](std::vector<std::string> words) {
    words.insert(words.begin(), "check");
    words.insert(words.end(), {"--format", "json"});
    const auto json = nlohmann::json::parse(run_program(words).out).at("not_yet_proved_safe");
    std::vector<std::string> rules;
    for (const auto& entry : json) rules.push_back(entry.at("rule"));
    return rules;
  };
  const std::vector<std::string> insulation{"insulation"};
  const std::vector<std::string> heater{"heater", "32", "--lead-off", "--ratings", "heater-450w-120v"};
  const auto with = [&](std::vector<std::string> more) {
    std::vector<std::string> words = heater;
    words.insert(words.end(), more.begin(), more.end());
    return not_proved(words);
  };
  EXPECT_EQ(with({}), insulation);
  EXPECT_EQ(with({"insulation=OL"}), insulation);
  EXPECT_EQ(with({"insulation=0.2Mohm", "--test", "500V"}), insulation);
  EXPECT_TRUE(with({"insulation=20Mohm", "--test", "500V"}).empty());
  EXPECT_EQ(not_proved({"heater", "OL", "--lead-off"}), insulation);
  EXPECT_EQ(not_proved({"wiring", "0.1", "--lead-off"}), insulation);
  EXPECT_EQ(not_proved({"fan-motor", "30", "--at", "20C", "--lead-off"}), insulation);
  EXPECT_TRUE(not_proved({"thermistor", "11k", "--at", "23C", "--lead-off"}).empty());  // it has no such rule
}

TEST(Check, WhatReadsOtherwiseWithTheProbesSwappedNeverPasses) {
  // A passive part is reciprocal (Kirchhoff, Ohm): each of these passes, or condemns, without its second reading.
  const std::vector<std::vector<std::string>> lines{
      {"thermistor", "--lead-off", "10.9k", "resistance_swapped=14k", "--at", "23C", "--ratings", ten_kilohm},
      {"heater", "--lead-off", "32", "resistance_swapped=90", "--ratings", "heater-450w-120v"},
      {"terminator", "--lead-off", "closed", "state_swapped=OL", "--at", "-18C", "--ratings", "opens-13"},
      {"fan", "--lead-off", "82", "winding_swapped=OL", "--at", "25C", "--ratings", "shaded-pole-120v"},
      {"wiring", "--lead-off", "0.2", "resistance_swapped=50", "--ratings", "connector"}};
  for (std::vector<std::string> words : lines) {
    words.insert(words.begin(), "check");
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 3) << words[1] << ran.out << ran.err;
    EXPECT_THAT(ran.out, AllOf(HasSubstr("swapped, and they differ"), HasSubstr("both ways")));
    words.insert(words.end(), {"--format", "json"});
    const auto json = nlohmann::json::parse(run_program(words).out);
    ASSERT_EQ(json.at("set_aside").size(), 1U);
    EXPECT_EQ(json.at("set_aside")[0].at("swapped"), "reading 2");
  }
}

TEST(Check, APassThatRestsOnALeadOffSaysSo) {
  const std::vector<std::string> words{"10.96k", "--at", "23C ± 0.3K", "--ratings", ten_kilohm};
  const Ran unsaid = check(words);
  EXPECT_THAT(unsaid.out, AllOf(HasSubstr("IN SPEC"), HasSubstr("Holds only if a lead of it was off")));
  EXPECT_THAT(run_program({"check", "heater", "32", "--ratings", "heater-450w-120v"}).out,
              HasSubstr("Holds only if a lead of it was off"));
  std::vector<std::string> said = words;
  said.insert(said.begin(), "--lead-off");
  EXPECT_THAT(check(said).out, AllOf(HasSubstr("IN SPEC"), Not(HasSubstr("Holds only"))));
  for (const bool is_said : {false, true}) {
    std::vector<std::string> for_programs = is_said ? said : words;
    for_programs.insert(for_programs.end(), {"--format", "json"});
    EXPECT_EQ(nlohmann::json::parse(check(for_programs).out).at("holds_if").size(), is_said ? 0U : 1U);
  }
}

TEST(Check, TheWayATemperatureWentIsTypedAndCounts) {
  // Hysteresis: opens-13 closes far below 5 °C, so one that came from the warm is open there.
  std::vector<std::string> words{"check", "terminator", "--lead-off", "closed", "--at", "5C", "--ratings", "opens-13"};
  EXPECT_EQ(run_program(words).exit_code, 3);
  words.insert(words.end(), {"--history", "cooling"});
  const Ran ran = run_program(words);
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("having cooled down"));
}

}  // namespace
}  // namespace ohmwright
