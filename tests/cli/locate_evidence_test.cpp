// What may condemn a part and what may not, through the real program. The rules are common practice, no source, but for
// those whose figures name one.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

constexpr const char* timer_upright = "upright-timer-bimetal-120v";
constexpr const char* board_upright = "upright-thermistor-230v";

/// What is printed with every run of blanks as one, so that sentences are whole.
std::string told(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.begin(), "locate");
  std::istringstream printed(run_program(words, {}, input).out);
  std::string all;
  std::string word;
  while (printed >> word) all += word + ' ';
  return all;
}

nlohmann::json located(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.begin(), "locate");
  words.insert(words.end(), {"--format", "json"});
  const Ran ran = run_program(words, {}, input);
  EXPECT_TRUE(locate_schema().problems(parse_document(ran.out, "locate").root).empty()) << ran.out << ran.err;
  return nlohmann::json::parse(ran.out);
}

/// The digit that the dialogue has for a symptom.
std::string number_of(const std::string& symptom, const char* appliance) {
  const std::string list = run_program({"locate", appliance, "--interactive", "--width", "200"}).out;
  const std::size_t line = list.find(symptom);
  const std::size_t begin = list.rfind('\n', line) + 1;
  return line == std::string::npos ? symptom : list.substr(begin, line - begin);
}

/// A meter of which the user turns to a range: 200 ohm, 20 kohm, 20 Mohm.
class ManualRange : public ::testing::Test {
 protected:
  ManualRange() : file_("/tmp/ohmwright-manual-meter-" + std::to_string(::getpid()) + ".json") {
    std::ofstream(file_) << R"({"name": "turned", "title": "Turned by hand", "source": "made for this test",
      "ranging": "manual", "lead_resistance": "0.2 ohm ± 0.1 ohm", "functions": [{"dimension": "resistance",
      "ranges": [
        {"full_scale": "200 ohm", "percent_of_reading": "1 %", "counts": 3, "resolution": "0.1 ohm"},
        {"full_scale": "20 kohm", "percent_of_reading": "1 %", "counts": 3, "resolution": "0.01 kohm"},
        {"full_scale": "20 Mohm", "percent_of_reading": "2 %", "counts": 5, "resolution": "0.01 Mohm"}]}]})";
  }
  ~ManualRange() override { std::filesystem::remove(file_); }

  std::vector<std::string> with_meter(std::vector<std::string> words) const {
    words.insert(words.end(), {"--meter", file_});
    return words;
  }

 private:
  std::string file_;
};

TEST_F(ManualRange, OverRangeOnAnUnknownRangeCondemnsNothing) {
  for (const char* reading : {"heater-alone=OL", "sensor-plug=OL"}) {
    const nlohmann::json json = located(with_meter({board_upright, "--zone", "coil=0C", reading}));
    EXPECT_EQ(json["standing"], "open") << reading;
  }
  // More than the 200 ohm of the smallest range is more than the 32 ohm of this heater, and still it is asked.
  const std::vector<std::string> words =
      with_meter({timer_upright, "harness@chilled=OL", "thermostat-alone@chilled=0.3", "heater-lead-alone=0.3",
                  "heater-alone=OL"});
  const nlohmann::json asked = located(words);
  EXPECT_EQ(asked["standing"], "open");
  EXPECT_EQ(asked["lacks"], nlohmann::json("range"));
  EXPECT_THAT(told(words),
              AllOf(HasSubstr("NOT FOUND YET"), HasSubstr("OL on a range that nobody stated condemns nothing"),
                    Not(HasSubstr("Mend or replace")), HasSubstr("Do next - Heater, a lead off")));
}

TEST_F(ManualRange, AStatedRangeCondemnsOnlyAboveIt) {
  // 10 kohm at 25 degC, B 3977 K: 32.6 kohm at 0 degC, more than 20 kohm; the heater has 294 ohm by its rating.
  EXPECT_EQ(located(with_meter({board_upright, "--zone", "coil=0C", "sensor-plug=OL on 20k"}))["standing"], "open");
  EXPECT_THAT(told(with_meter({board_upright, "--zone", "coil=0C", "sensor-plug=OL on 20k"})),
              HasSubstr("tells nothing: a good one reads about 33 kΩ. Turn to a higher range and read again."));
  EXPECT_EQ(located(with_meter(
                {board_upright, "heater-plug=OL on 20k", "link-alone=0.3", "heater-alone=OL on 20k"}))["standing"],
            "found");
  EXPECT_EQ(located(with_meter({board_upright, "heater-plug=OL", "link-alone=0.3", "heater-alone=OL", "--range",
                                "20 kohm"}))["standing"],
            "found");
  EXPECT_EQ(
      located(with_meter({board_upright, "heater-plug=> 20k", "link-alone=0.3", "heater-alone=OL Mohm"}))["standing"],
      "found");
}

TEST_F(ManualRange, OverRangeBelowAValueIsNoDisagreement) {
  EXPECT_THAT(told(with_meter({board_upright, "--zone", "coil=0C", "sensor-plug=OL on 20k", "sensor-plug=33k"})),
              Not(HasSubstr("comes and goes. Clip")));
  EXPECT_THAT(told(with_meter({board_upright, "--zone", "coil=0C", "sensor-plug=OL on 20M", "sensor-plug=33k"})),
              HasSubstr("comes and goes. Clip"));
}

TEST_F(ManualRange, AFileOfReadingsStatesRangesToo) {
  const std::string written = R"({"readings": [
    {"test_point": "heater-plug", "value": "OL", "range": "20 kohm"},
    {"test_point": "link-alone", "value": "0.3 ohm"},
    {"test_point": "heater-alone", "value": "OL", "range": "20 kohm"}]})";
  const nlohmann::json first = located(with_meter({board_upright, "--readings", "-"}), written);
  EXPECT_EQ(first["standing"], "found");
  EXPECT_EQ(first["readings"][0]["range"]["value"], 20e3);
  EXPECT_EQ(located(with_meter({board_upright, "--readings", "-"}), first.dump()), first);
}

TEST_F(ManualRange, ARangeThatCannotBeIsRefused) {
  const auto refused = [&](const char* reading) {
    return run_program(with_meter({"locate", board_upright, reading})).err;
  };
  EXPECT_THAT(refused("heater-alone=OL on 60M"),
              HasSubstr("heater-alone=OL on 60M: the meter \"turned\" has no range of 60.00 Mohm; its largest is"));
  EXPECT_THAT(refused("heater-alone=294 on 200"), HasSubstr("cannot be shown on a range of"));
  EXPECT_THAT(refused("heater-alone=OL on 5 V"), HasSubstr("expected a resistance"));
}

TEST_F(ManualRange, TheDialogueAsksForTheRange) {
  const Ran ran = run_program(with_meter({"locate", board_upright, "--interactive", "--width", "200"}), {},
                              number_of("The residual-current device trips", board_upright) + "\n1\n1\nOL\n20k\n0\n");
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("OL on which range (such as 20k; 0: nobody knows)?"), HasSubstr("on the 20 kΩ range")))
      << ran.err;
}

TEST(Evidence, ACodeAloneReplacesNothing) {
  // Set a hundred times it is nearly sure of what it saw, and of nothing else.
  for (const char* code : {"F2", "F2:100x"}) {
    const nlohmann::json json = located({board_upright, "--code", code});
    EXPECT_EQ(json["standing"], "open") << code;
    EXPECT_EQ(json["steps"][0]["do"], "measure") << code;
  }
  const std::string words = told({board_upright, "--code", "F2:100x"});
  EXPECT_THAT(words, AllOf(HasSubstr("by itself it condemns nothing. Measure to confirm it"),
                           HasSubstr("Do next - Ohms at the sensor's plug"), Not(HasSubstr("Mend or replace"))));
  EXPECT_EQ(located({board_upright, "--code", "F2:100x"})["lacks"], "reading");
  EXPECT_EQ(run_program({"locate", board_upright, "--code", "F2:100x"}).exit_code, 3);
}

TEST(Evidence, ACodeThatAReadingBearsOutDoes) {
  const nlohmann::json json = located({board_upright, "--code", "F2", "sensor-plug=OL"});
  EXPECT_THAT(json["standing"], ::testing::AnyOf("found", "likely"));
  EXPECT_FALSE(json.contains("lacks"));
  EXPECT_EQ(located({board_upright, "--code", "F2:100x", "heater-plug=294"})["standing"], "open")
      << "a reading of another part bears out nothing";
}

TEST(Evidence, ADeadShortToTheFrameIsExplained) {
  for (const char* shown : {"heater-to-frame=0", "heater-to-frame=0.3", "heater-to-frame=5", "heater-to-frame=40"}) {
    const nlohmann::json json = located({timer_upright, shown});
    EXPECT_LT(json["readings"][0]["probability_unexplained"].get<double>(), 0.5) << shown;
    EXPECT_EQ(json["possible_faults"][0]["parts"], nlohmann::json::array({"heater"})) << shown;
  }
  EXPECT_THAT(told({timer_upright, "heater-to-frame=0"}),
              AllOf(HasSubstr("Defrost heater: leaks to the frame"), HasSubstr("STOP, do not energise it")));
  EXPECT_THAT(told({timer_upright, "heater-to-frame=OL"}), Not(HasSubstr("do not energise it")));
}

TEST(Evidence, NothingIsReadLiveWhileTheFrameMayBecomeSo) {
  const auto has_live_step = [](const nlohmann::json& json) {
    for (const auto& step : json["steps"])
      if (step["do"] == "replace" || (step["do"] == "measure" && step["live"].get<bool>())) return true;
    return false;
  };
  EXPECT_TRUE(has_live_step(located({timer_upright, "--allow-live", "harness@chilled=32"})));
  EXPECT_FALSE(has_live_step(
      located({timer_upright, "--allow-live", "--insulation-good", "harness@chilled=32", "harness-to-earth=30k"})));
}

TEST(Evidence, TheStopNamesNothingToReplace) {
  const std::vector<std::string> words{board_upright, "--symptom", "frost-first-turns", "heater-alone=OL",
                                       "heater-plug=OL"};
  EXPECT_THAT(told(words), AllOf(HasSubstr("STOP: this speaks of the sealed refrigerant system"), HasSubstr("licensed"),
                                 Not(HasSubstr("Possible faults")), Not(HasSubstr("replace:")),
                                 Not(HasSubstr("Do next")), Not(HasSubstr("% Defrost heater"))));
  const nlohmann::json json = located(words);
  EXPECT_EQ(json["standing"], "sealed-system");
  EXPECT_TRUE(json["possible_faults"].empty());
  EXPECT_TRUE(json["parts"].empty());
  EXPECT_TRUE(json["steps"].empty());
  std::vector<std::string> as_html{"locate"};
  as_html.insert(as_html.end(), words.begin(), words.end());
  as_html.insert(as_html.end(), {"--format", "html"});
  EXPECT_THAT(run_program(as_html).out, AllOf(Not(HasSubstr("Possible faults")), Not(HasSubstr("<svg"))));
}

// A pass of 32 ohm: whatever a part alone may show has a fault that shows it (extents assumed, no source).
TEST(Evidence, NoOhmsOfAPartAloneAreBeyondItsFaults) {
  struct Place {
    const char* appliance;
    const char* point;
    const char* part;
    std::vector<const char*> shown;
  };
  const std::vector<Place> places{
      {timer_upright, "heater-alone", "heater", {"0.2", "2", "6", "10", "16", "20", "60", "700", "1k", "10k", "90k"}},
      {timer_upright, "fan-alone", "fan", {"0.2", "3", "2k", "20k", "90k"}},
      {board_upright, "sensor-plug", "sensor", {"0.1ohm", "5ohm", "100ohm", "400ohm", "400k", "900k"}},
      {board_upright, "link-alone", "link", {"5", "60", "300", "2k", "90k"}},
      {timer_upright, "splice-alone", "splice", {"3", "40", "70", "1k", "20k", "90k"}}};
  for (const Place& place : places)
    for (const char* shown : place.shown) {
      const std::string reading = std::string(place.point) + "=" + shown;
      const nlohmann::json json = located({place.appliance, reading, reading});
      for (const auto& row : json["readings"])
        EXPECT_LT(row["probability_unexplained"].get<double>(), 0.5) << place.appliance << ' ' << reading;
      EXPECT_EQ(json["possible_faults"][0]["parts"], nlohmann::json::array({place.part})) << reading;
    }
}

TEST(Evidence, AHeaterOfAThirdOfItsOhmsIsNamed) {
  const std::vector<std::string> words{timer_upright,     "--symptom",         "frost-whole-coil",
                                       "heater-alone=10", "heater-alone=10.1", "heater-alone=10"};
  EXPECT_THAT(located(words)["standing"], ::testing::AnyOf("found", "likely"));
  EXPECT_THAT(told(words), AllOf(HasSubstr("Defrost heater: part of its wire bridged"),
                                 Not(HasSubstr("Nothing of the possible faults explains it"))));
}

// 400 kilohms across a link, that is whole, burnt through or open, are explained by nothing: twice alike they are no
// slip, and nobody is sent there a third time (common practice, no source).
TEST(Evidence, WhatWasReadTwiceAlikeIsNotAskedForAgain) {
  const auto asks_for_it = [](const nlohmann::json& json) {
    for (const auto& step : json["steps"])
      if (step.value("test_point", std::string()) == "link-alone") return true;
    return false;
  };
  const nlohmann::json once = located({board_upright, "link-alone=400k"});
  ASSERT_GT(once["readings"][0]["probability_unexplained"].get<double>(), 0.5);
  EXPECT_TRUE(asks_for_it(once));
  EXPECT_FALSE(asks_for_it(located({board_upright, "link-alone=400k", "link-alone=401k"})));
  EXPECT_THAT(told({board_upright, "link-alone=400k", "link-alone=401k"}),
              AllOf(HasSubstr("Read twice alike, and nothing of the possible faults explains it: judge what lies "
                              "between the probes by itself (ohmwright check)."),
                    Not(HasSubstr("explains it: measure it again"))));
}

// The splice was read by itself, and what it showed and a good heater add up to what the harness shows.
TEST(Evidence, APartReadAloneIsNamedForWhatTheNetworkShows) {
  for (const char* shown : {"300", "2k", "20k"}) {
    const std::string alone = std::string("splice-alone=") + shown;
    const std::string both = "harness=" + std::string(shown == std::string("300") ? "332" : shown);
    const nlohmann::json json =
        located({timer_upright, "--zone", "coil=-18C", "--symptom", "no-heat", alone, alone, both, both});
    EXPECT_EQ(json["possible_faults"][0]["parts"], nlohmann::json::array({"splice"})) << shown;
  }
}

// A broken test lead shows OL everywhere (common practice, no source).
TEST(Evidence, NothingIsFoundByALeadThatOnlyShowsOpen) {
  const std::vector<std::string> words{timer_upright, "plug@turned-to-defrost=OL",
                                       "defrost-to-neutral@turned-to-defrost=OL", "timer-motor=OL"};
  EXPECT_NE(located(words)["standing"], "found");
  EXPECT_THAT(told(words), HasSubstr("Every reading is OL. A broken test lead, the wrong jack or a flat battery shows "
                                     "OL wherever the probes are: touch them together"));
  std::vector<std::string> with_value = words;
  with_value.push_back("fan-alone=60");
  EXPECT_THAT(told(with_value), Not(HasSubstr("Every reading is OL")));
}

TEST(Evidence, ALookThatFindsTheRefrigerantShortEndsInTheStop) {
  for (const char* appliance : {timer_upright, "combination-two-evaporators-230v"}) {
    const std::vector<std::string> words{appliance, "--symptom", "frost-whole-coil", "--looked",
                                         "refrigerant-short=found"};
    EXPECT_THAT(told(words), AllOf(HasSubstr("STOP: this speaks of the sealed refrigerant system"),
                                   HasSubstr("licensed"), Not(HasSubstr("Do next"))));
    EXPECT_EQ(located(words)["standing"], "sealed-system");
  }
  EXPECT_NE(located({timer_upright, "--looked", "refrigerant-short=fine"})["standing"], "sealed-system");
}

TEST(Evidence, TheDialogueRepliesToWhatNothingExplains) {
  const std::string typed = number_of("A defrost ends too early", board_upright) + "\n1\n1\n180k\n1\n7.7k\n0\n";
  EXPECT_THAT(
      run_program({"locate", board_upright, "--interactive", "--width", "200"}, {}, typed).out,
      AllOf(HasSubstr("Nothing modelled explains reading 1, "), HasSubstr(". Measure it again: probes on bare metal")));
}

TEST(Evidence, WhatTheEvidenceSpeaksAgainstIsNotLookedAtFirst) {
  for (const char* symptom :
       {"short-defrost", "trips-residual-current-device", "fault-since-repair", "comes-and-goes"}) {
    const nlohmann::json json = located({timer_upright, "--symptom", symptom});
    EXPECT_EQ(json["steps"][0]["do"], "measure") << symptom;
  }
  EXPECT_EQ(located({timer_upright, "--symptom", "door-does-not-close"})["steps"][0]["outside_cause"], "door-gasket");
}

TEST(Evidence, WhatComesAndGoesIsReadAgain) {
  const nlohmann::json json = located({timer_upright, "splice-alone=0.3", "splice-alone=OL"});
  EXPECT_EQ(json["steps"][0]["test_point"], "splice-alone");
  const nlohmann::json thrice = located({timer_upright, "splice-alone=0.3", "splice-alone=OL", "splice-alone=0.3"});
  EXPECT_NE(thrice["steps"][0]["test_point"], "splice-alone");
}

TEST(Evidence, ASetUpIsAskedForOnlyWhereItMatters) {
  const nlohmann::json json = located({timer_upright, "--symptom", "frost-whole-coil", "harness@chilled=OL"});
  bool heater_is_offered = false;
  for (const auto& step : json["steps"]) {
    if (step.value("test_point", std::string()) != "heater-alone") continue;  // a look has none
    heater_is_offered = true;
    EXPECT_FALSE(step.contains("set_up"));
    EXPECT_LT(step["minutes"].get<double>(), 9.0) << "what is chilled stays so: no end of it is paid for";
  }
  EXPECT_TRUE(heater_is_offered);
  const std::string words = told({timer_upright, "--symptom", "frost-whole-coil", "harness@chilled=OL"});
  EXPECT_THAT(words, AllOf(Not(HasSubstr("Heater, a lead off, after:")), Not(HasSubstr("End first"))));
}

TEST(Evidence, AWarmContactIsToldOfWhereverTheReadingLeadsThroughIt) {
  EXPECT_THAT(told({timer_upright, "harness@thawed=OL"}),
              HasSubstr("Defrost wire to neutral, connector pulled off the timer leads through the Defrost thermostat, "
                        "which is open because it is warm (21.0 °C ± 3.6 K): a good one is, too."));
  EXPECT_THAT(told({timer_upright, "heater-alone@thawed=OL"}), Not(HasSubstr("because it is warm")));
  EXPECT_THAT(told({timer_upright, "harness@chilled=OL"}), Not(HasSubstr("because it is warm")));
}

TEST(Evidence, AConnectorLeftInIsRecognisedInAnotherStateToo) {
  // Compressor 6 ohm, heater 32 ohm and fan beside each other: reference row "run contact welded", D to N, about 5 ohm;
  // and what the run wire shows.
  EXPECT_THAT(
      told({timer_upright, "harness=5.5"}),
      AllOf(HasSubstr("5.500 Ω is what it shows with the connector still in or the lead still on, after: timer "
                      "turned by hand to defrost. Pull it and measure again."),
            HasSubstr("5.500 Ω is what this shows: Run wire to neutral, connector pulled off the timer. Were the "
                      "probes on the right pins?")));
}

/// A plug has pins at which nothing is: the output for a fan that the control feeds in direct current.
TEST(GenericAppliance, OfWhoseControlAPinIsEmptyIsSearched) {
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("ohmwright-generic-" + std::to_string(getpid()) + ".json");
  const Ran made = run_program({"appliance", "new", "--answer", "volts=120", "--answer", "starts=board", "--answer",
                                "ends=sensor", "--answer", "link=no", "--answer", "fan=more", "--answer",
                                "refrigerant=non-flammable", "--out", file.string()});
  ASSERT_EQ(made.exit_code, 0) << made.err;
  const Ran ran = run_program({"locate", file.string(), "--symptom", "frost-whole-coil"});
  std::filesystem::remove(file);
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Do next"));
}

/// Of a part whose class nobody knows no number is promised: 90 kohm of a good sensor at -18 degC would look wrong
/// beside it (10 kohm at 25 degC, common practice, no source).
TEST(GenericAppliance, PromisesNoOhmsOfAPartThatNobodyKnows) {
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("ohmwright-unknown-" + std::to_string(getpid()) + ".json");
  const std::string do_not_know = "3\n3\n1\n3\n3\n3\n";
  const Ran made = run_program({"appliance", "new", "--out", file.string()}, {}, do_not_know);
  ASSERT_EQ(made.exit_code, 0) << made.err;
  const std::string all = told({file.string(), "--symptom", "no-defrost", "--zone", "coil=-18C", "harness=290"});
  std::filesystem::remove(file);
  EXPECT_THAT(all, AllOf(HasSubstr("some ohms, neither near 0 nor OL if Control board"),
                         HasSubstr("OL if Coil sensor: open sensor or lead"), Not(HasSubstr("1.0\u00a0kΩ"))));
}

/// What holds a likely part back is told to programs as to people.
TEST(Evidence, JsonTellsWhatWouldClearALikelyPart) {
  const nlohmann::json other =
      located({"bottom-freezer-thermistor-230v", "--zone", "coil=0C", "sensor-alone=32.6k", "sensor-plug=32.5k"});
  EXPECT_EQ(other["standing"], "likely");
  EXPECT_EQ(other["other_class"]["part"], "sensor");
  EXPECT_THAT(other["other_class"]["class"].get<std::string>(), HasSubstr("10 kΩ at 25 °C"));
  const nlohmann::json warm = located(
      {"upright-thermistor-230v", "--zone", "coil=-18C", "--symptom", "no-air", "fan-plug=330", "fan-plug=330"});
  EXPECT_EQ(warm["may_be_warm"], "fan");
  EXPECT_FALSE(warm.contains("other_class"));
}

}  // namespace
}  // namespace ohmwright
