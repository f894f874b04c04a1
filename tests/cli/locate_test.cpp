// Finding a fault through the real program.

#include <filesystem>
#include <fstream>
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

Ran locate(std::vector<std::string> words, const std::string& input = {}) {
  words.insert(words.begin(), {"locate", "upright-thermistor-230v"});
  return run_program(words, {}, input);
}

TEST(Locate, WithoutReadingsSaysWhatToDoFirst) {
  const Ran ran = locate({"--symptom", "frost-whole-coil"});
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NOT FOUND YET"), HasSubstr("Do next"), HasSubstr("What is assumed")));
}

TEST(Locate, NamesAnOpenHeater) {
  const Ran ran = locate({"--symptom", "frost-whole-coil", "heater-plug=OL", "link-alone=0.3", "heater-alone=OL"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("FOUND: Defrost heater: element open"), HasSubstr("Look for what may have"),
                             HasSubstr("ohmwright compare\n    heater"), HasSubstr("0.3")));
}

/// A plugin from elsewhere whose electrical model cannot be used costs what it could have told, and nothing else.
TEST(Locate, GoesOnWithoutAPartWhosePluginFails) {
  const std::filesystem::path file =
      std::filesystem::temp_directory_path() / ("ohmwright-dryer-" + std::to_string(::getpid()) + ".json");
  nlohmann::ordered_json dryer = nlohmann::ordered_json::parse(
      std::ifstream(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/appliance/appliances/vented-dryer-230v.json"));
  dryer["appliance"] = "dryer-with-a-stranger";
  dryer["parts"].push_back({{"id", "stranger"},
                            {"title", "Humidity sensor"},
                            {"kind", "misleads-in-models"},
                            {"zone", "room"},
                            {"connections", {{"a", "A"}, {"b", "N"}}},
                            {"minutes_to_replace", "10 min"}});
  std::ofstream(file) << dryer.dump(1);
  const Ran ran = run_program({"locate", file.string(), "--symptom", "no-heat", "--plugins", OHMWRIGHT_FIXTURE_FOLDER});
  std::filesystem::remove(file);
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("Do next"));
  EXPECT_THAT(ran.err, AllOf(HasSubstr("\"Humidity sensor\""), HasSubstr("gives an element whose value is not")));
}

TEST(Locate, NamesTheLinkAndItsCause) {
  const Ran ran = locate({"heater-plug=OL", "link-alone=OL", "heater-alone=294"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Thermal link: open"), HasSubstr("Look for what may have caused it first"),
                             HasSubstr("Replace: Thermal link."), Not(HasSubstr("needs no new part"))));
}

TEST(Locate, ADriftedSensorIsJudgedByTheTemperatureOfItsZone) {
  // 10 kohm at 25 degC, B 3977 K: about 33 kohm at 0 degC, 12.6 kohm at 20 degC.
  const Ran good = locate({"--zone", "coil=0C", "sensor-plug=33k"});
  EXPECT_THAT(good.out, Not(HasSubstr("LIKELY: Coil sensor")));
  const Ran drifted = locate({"--zone", "coil=0C", "sensor-plug=60k", "--no-symptom", "door-does-not-close"});
  EXPECT_THAT(drifted.out, HasSubstr(": Coil sensor: drifted, reads too high")) << drifted.out;
}

TEST(Locate, StopsAtTheSealedSystem) {
  const Ran ran = locate({"--symptom", "frost-first-turns"});
  EXPECT_EQ(ran.exit_code, 3);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("STOP"), HasSubstr("licensed"), Not(HasSubstr("Do next"))));
}

TEST(Locate, AReadingThatNothingExplainsIsToBeTakenAgain) {
  const Ran ran = locate({"heater-plug=294", "heater-alone=294", "link-alone=2k"});
  EXPECT_THAT(ran.out, HasSubstr("explains it: measure it again.")) << ran.out;
}

TEST(Locate, ACodeOfTheBoardIsEvidence) {
  const auto probability_of_sensor = [](const std::vector<std::string>& words) {
    std::vector<std::string> all = words;
    all.insert(all.end(), {"--format", "json"});
    const auto json = nlohmann::json::parse(locate(all).out);
    for (const auto& part : json["parts"])
      if (part["part"] == "sensor") return part["probability"].get<double>();
    return -1.0;
  };
  const double without = probability_of_sensor({});
  const double with = probability_of_sensor({"--code", "F2"});
  const double old = probability_of_sensor({"--code", "F2:old"});
  EXPECT_GT(with, 0.6);
  EXPECT_GT(old, without);
  EXPECT_LT(old, with);
}

TEST(Locate, JsonIsValidAgainstItsSchema) {
  const Ran ran = locate({"--symptom", "frost-whole-coil", "heater-plug=OL", "--format", "json"});
  EXPECT_TRUE(locate_schema().problems(parse_document(ran.out, "locate").root).empty());
}

TEST(Locate, WhatItPrintsAsReadingsIsReadBack) {
  const std::string written = R"({"readings": [
    {"test_point": "heater-plug", "value": "8.03 kohm ± 1 %", "note": "connector pulled"},
    {"test_point": "sensor-plug", "set_up": "thawed", "value": "10.9 kohm"},
    {"test_point": "sensor-plug", "temperatures": {"coil": "-7.3 degC ± 0.7 K"}, "value": "47.1 kohm"},
    {"test_point": "link-alone", "value": "closed"},
    {"test_point": "heater-alone", "value": "OL"}
  ]})";
  const Ran first = locate({"--readings", "-", "--format", "json"}, written);
  ASSERT_EQ(first.exit_code, 0) << first.err;
  const Ran second = locate({"--readings", "-", "--format", "json"}, first.out);
  EXPECT_EQ(first.out, second.out) << second.err;
  EXPECT_TRUE(locate_schema().problems(parse_document(first.out, "locate").root).empty());
  EXPECT_EQ(nlohmann::json::parse(first.out)["readings"].size(), 5U);
}

TEST(Locate, AFileOfReadingsSaysTheSameAsWords) {
  const Ran words = locate({"heater-plug=OL", "link-alone@thawed=0.3", "--format", "json"});
  const Ran file = locate({"--readings", "-", "link-alone@thawed=0.3", "--format", "json"},
                          R"({"readings": [{"test_point": "heater-plug", "value": "OL"}]})");
  EXPECT_EQ(words.out, file.out) << file.err;
}

TEST(Locate, ShowsTheCircumstancesAndTheNoteOfAReading) {
  const Ran ran = run_program({"locate", "upright-timer-bimetal-120v", "--readings", "-", "--width", "200"}, {},
                              R"({"readings": [{"test_point": "harness", "states": {"timer.position": "defrost"},
      "temperatures": {"coil": "-12 degC ± 1 K"}, "value": "32.4 ohm", "note": "ice on the plug"}]})");
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Defrost wire to neutral, connector pulled off the timer, in a defrost,"),
                             HasSubstr("at\n    -12.0 °C ± 1.0 K: 32.40 Ω (ice on the plug)")))
      << ran.err;
}

TEST(Locate, RefusesAFileOfReadingsInOneLine) {
  EXPECT_EQ(locate({"--readings", "-"}, R"({"readings": [{"test_point": "heater-plig", "value": "OL"}]})").err,
            "ohmwright: standard input:1: /readings/0/test_point: there is no test point \"heater-plig\"; did you mean "
            "\"heater-plug\"?\n");
  EXPECT_EQ(locate({"--readings", "-", "--interactive"}, "").err,
            "ohmwright: --interactive asks on the standard input, so --readings cannot read it; name a file\n");
  EXPECT_THAT(run_program({"locate", "upright-timer-bimetal-120v", "--readings", "-"}, {},
                          R"({"readings": [{"test_point": "volts-run", "value": "120 V"}]})")
                  .err,
              HasSubstr("the reading volts-run in standard input, line 1 was taken live"));
}

TEST(Locate, HtmlEscapesAndStandsAlone) {
  const Ran ran = locate({"heater-plug=OL", "--format", "html"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("<h1>"), HasSubstr("Possible faults"), Not(HasSubstr("src=\"http"))));
}

TEST(Locate, AsksStepByStep) {
  // Frost on the whole coil; not thawed; the door is in order; then whatever is asked next cannot be reached; why;
  // stop.
  const Ran ran = locate({"--interactive", "--width", "60"}, "1\n1\n2\n2\n3\n0\n");
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("What do you see?"), HasSubstr("2 cannot reach it"), HasSubstr("0 stop"),
                             HasSubstr("It would show about")));
}

TEST(Locate, AsksAgainForWhatIsNoAnswer) {
  const Ran ran = locate({"--interactive", "--width", "80"}, "99\nice\n2\n7\n1\n0\n");
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("with blanks between them, or 0 for none."), HasSubstr("Type one of the digits.")));
  EXPECT_THAT(ran.err, ::testing::IsEmpty());
}

TEST(Locate, TakesATemperatureStepByStep) {
  const std::vector<std::string> words{"sensor-plug=86k", "--interactive", "--width", "200"};
  const std::string unmeasured = "Temperature of the evaporator coil: not measured";
  EXPECT_THAT(locate(words, "0\n1\n0\n").out, HasSubstr(unmeasured));
  const Ran cold = locate(words, "0\n1\n6\n1\n-18C\n0\n");
  EXPECT_THAT(cold.out, AllOf(HasSubstr("6 say how warm something is"), HasSubstr("How warm is it there"),
                              Not(HasSubstr(unmeasured))));
  EXPECT_THAT(locate(words, "0\n1\n6\n1\n-18C\n6\n1\n0\n").out,
              HasSubstr("That was said, and holds for all that was read."))
      << "what was read at one temperature is moved by no other";
  const Ran unsaid = locate(words, "0\n1\n6\n1\n-18C\n5\n0\n");
  EXPECT_THAT(unsaid.out, AllOf(HasSubstr("Taken back: coil=-18C"), HasSubstr(unmeasured)));
  const Ran slips = locate(words, "0\n1\n6\n9\n6\n1\nwarm\n0\n");
  EXPECT_THAT(slips.out, AllOf(HasSubstr("Type one of the digits."), HasSubstr("\"warm\""), HasSubstr(unmeasured)));
}

TEST(Locate, TakesEveryAnswerBackBeyondATemperature) {
  const auto how_often = [](const std::string& text, const std::string& part) {
    std::size_t count = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
  };
  // A look, a reading, a temperature, another reading; then back over all four, and over what was seen at first.
  const std::vector<std::string> words{"--interactive", "--width", "200"};
  const std::string there = "0\n1\n1\n86k\n6\n1\n-18C\n1\n32\n";
  const Ran back = locate(words, there + "5\n5\n5\n5\n5\n");
  EXPECT_EQ(how_often(back.out, "Taken back: coil=-18C"), 1U);
  EXPECT_EQ(how_often(back.out, "What do you see?"), 2U) << back.out;
  EXPECT_EQ(how_often(locate(words, there + "5\n5\n5\n5\n").out, "What do you see?"), 1U);
  // What is asked then is what was asked at first.
  const Ran again = locate(words, there + "5\n5\n5\n5\n5\n0\n1\n0\n");
  const Ran first = locate(words, "0\n1\n0\n");
  EXPECT_EQ(again.out.substr(again.out.rfind("Do next")), first.out.substr(first.out.rfind("Do next")));
}

TEST(Locate, TheDialogueTakesAReadingAtItsMenu) {
  const std::vector<std::string> words{"--interactive", "--width", "200"};
  EXPECT_THAT(locate(words, "0\n1\n2\n2\n290ohm\n0\n").out, Not(HasSubstr("Type one of the digits")));
  EXPECT_THAT(locate(words, "0\n1\n2\n2\nx\n0\n").out, HasSubstr("Type one of the digits"));
}

TEST(Locate, TheDialogueStopsAtTheSealedSystem) {
  const Ran listed = locate({"--interactive", "--width", "80"}, "");
  const std::size_t line = listed.out.find("Frost on the first turns");
  ASSERT_NE(line, std::string::npos);
  const std::string number =
      listed.out.substr(listed.out.rfind('\n', line) + 1, line - listed.out.rfind('\n', line) - 1);
  const Ran ran = locate({"--interactive", "--width", "80"}, number + "\n1\n");
  EXPECT_THAT(ran.out,
              AllOf(HasSubstr("STOP: this speaks of the sealed refrigerant system"), Not(HasSubstr("Do next"))));
}

TEST(Locate, AsksForAPartAloneUnlessItWasReadSo) {
  EXPECT_THAT(run_program({"locate", "vented-dryer-230v", "link-alone=OL", "--width", "200"}).out,
              AllOf(HasSubstr("LIKELY: Thermal link"), HasSubstr("you read it alone; set the probes on bare metal")));
  EXPECT_THAT(
      run_program({"locate", "upright-timer-bimetal-120v", "--symptom", "no-air", "--symptom", "noise", "--symptom",
                   "frost-whole-coil", "heater-alone=32", "--looked", "door-gasket=fine", "thermostat-alone=0.3"})
          .out,
      AllOf(HasSubstr("LIKELY: Evaporator fan"), HasSubstr("no ohms of its own show it")));
}

TEST(Locate, ProvesADryerByARunAndAFreezerByADefrost) {
  const auto told = [](const char* appliance) {
    return run_program({"locate", appliance, "link-alone=OL", "--width", "100"}).out;
  };
  EXPECT_THAT(told("vented-dryer-230v"), AllOf(HasSubstr("Thermal link"), Not(HasSubstr("forced defrost"))));
  EXPECT_THAT(locate({"heater-plug=OL", "link-alone=0.3", "heater-alone=OL"}).out, HasSubstr("forced defrost"));
}

TEST(Locate, WhoHasNoFileIsToldOfTheWayWithout) {
  EXPECT_THAT(run_program({"locate", "fridge"}).err,
              HasSubstr("; or make a generic one from six questions: ohmwright appliance new"));
}

TEST(Locate, GoesBackOneAnswerAfterTheOther) {
  // The door is in order; back; back once more, to what was seen at first.
  const Ran ran = locate({"--interactive", "--width", "80"}, "0\n1\n2\n5\n5\n0\n1\n0\n");
  EXPECT_NE(ran.out.find("What do you see?"), ran.out.rfind("What do you see?"));
  const std::size_t first = ran.out.find("Look: close the door");
  ASSERT_NE(first, std::string::npos);
  EXPECT_NE(ran.out.find("Look: close the door", first + 1), std::string::npos) << "offered again after going back";
  EXPECT_THAT(ran.out, Not(HasSubstr("Looked at and in order")));
}

TEST(Locate, APartThatWasReplacedIsEvidence) {
  const std::vector<std::string> words{"heater-plug=OL", "--replaced", "heater=cured"};
  EXPECT_THAT(locate(words).out, AllOf(HasSubstr(": Defrost heater: element open"),
                                       HasSubstr("Replaced, and it runs: "
                                                 "Defrost heater"),
                                       Not(HasSubstr("Mend or replace: Defrost heater"))));
  EXPECT_THAT(locate({"heater-plug=OL", "--replaced", "heater=same"}).out,
              AllOf(HasSubstr("The likeliest is Thermal link: open"), HasSubstr("Replaced, and it is as before")));
  EXPECT_THAT(locate({"--replaced", "heater=yes"}).err,
              HasSubstr("--replaced takes PART=cured or PART=same, got \"heater=yes\""));
  EXPECT_THAT(locate({"--replaced", "heatr=same"}).err,
              HasSubstr("the appliance has no part \"heatr\"; did you mean \"heater\"?"));
}

TEST(Locate, HowLongItRanWellAfterAThawIsEvidence) {
  const auto probability_of = [](const std::string& part, std::vector<std::string> words) {
    words.insert(words.end(), {"--format", "json"});
    const auto json = nlohmann::json::parse(locate(words).out);
    for (const auto& row : json["parts"])
      if (row["part"] == part) return row["probability"].get<double>();
    return -1.0;
  };
  const double unknown = probability_of("heater", {});
  const double days = probability_of("heater", {"--unplugged", "24h", "--ran-well", "5d"});
  const double at_once = probability_of("heater", {"--unplugged", "24h", "--ran-well", "2h"});
  const double too_short = probability_of("heater", {"--unplugged", "20min", "--ran-well", "5d"});
  EXPECT_GT(days, 1.3 * unknown);
  // Most faults of a heater bring frost, few of a fan do: evidence multiplies odds (Bayes), here the one's against the
  // other's, whatever else the appliance has.
  const double fan_at_once = probability_of("fan", {"--unplugged", "24h", "--ran-well", "2h"});
  EXPECT_LT(at_once / fan_at_once, 0.6 * unknown / probability_of("fan", {}));
  EXPECT_LT(at_once, unknown);
  EXPECT_NEAR(too_short, unknown, 0.01);
  EXPECT_THAT(locate({"--unplugged", "24h", "--ran-well", "5d"}).out,
              AllOf(HasSubstr("It was without power for 24 h"), HasSubstr("After that it ran well for 5.0 d")));
  EXPECT_THAT(locate({"--ran-well", "no"}).out, HasSubstr("After a thaw it failed again at once"));
  EXPECT_THAT(locate({"--ran-well", "maybe"}).err, HasSubstr("expected a duration"));
  EXPECT_THAT(locate({"--ran-well", "0 d"}).err, HasSubstr("expected a time above 0, such as \"24 h\", got \"0 d\""));
  EXPECT_THAT(
      locate({"--unplugged", "24h"}).err,
      HasSubstr("--unplugged alone says nothing; say as well how long it ran well afterwards: --ran-well 5d, or "
                "no"));
}

TEST(Locate, HowOftenACodeWasSetIsEvidence) {
  EXPECT_THAT(locate({"--code", "F2:12x"}).out, HasSubstr("Code F2, set 12 times: "));
  EXPECT_THAT(locate({"--code", "F2:old"}).out, HasSubstr("An old code, F2: "));
  EXPECT_THAT(locate({"--code", "F2:often"}).err,
              HasSubstr("--code takes CODE, CODE:old, CODE:12x (how often) or both, got \"F2:often\""));
}

TEST(Locate, TheDialogueEndsWithTheInput) {
  const Ran ran = locate({"--interactive"}, "");
  EXPECT_EQ(ran.exit_code, 3);
}

TEST(Locate, RefusesWhatItDoesNotKnow) {
  EXPECT_THAT(locate({"heater-plig=OL"}).err,
              HasSubstr("the appliance has no test point \"heater-plig\"; did you mean \"heater-plug\"?"));
  EXPECT_THAT(locate({"heater-plug"}).err, HasSubstr("expected TESTPOINT=VALUE or TESTPOINT@SETUP=VALUE"));
  EXPECT_THAT(locate({"heater-plug=12 V"}).err, HasSubstr("expected a resistance"));
  EXPECT_THAT(locate({"heater-plug@thawd=12"}).err, HasSubstr("did you mean \"thawed\"?"));
  EXPECT_THAT(locate({"--symptom", "frost"}).err, HasSubstr("there is no symptom \"frost\""));
  EXPECT_THAT(locate({"--looked", "door-gasket=maybe"}).err, HasSubstr("CAUSE=found or CAUSE=fine"));
  EXPECT_THAT(locate({"--code", "F9"}).err, HasSubstr("the appliance has no code \"F9\""));
  EXPECT_THAT(locate({"--zone", "coil=12 V"}).err, HasSubstr("expected a temperature"));
  EXPECT_THAT(run_program({"locate", "upright"}).err, HasSubstr("there is no appliance \"upright\""));
}

/// Whatever was read before: who opens the page next may stand before a plugged-in appliance.
TEST(Locate, BeginsWithTheCautionsOfAllWorkOnTheAppliance) {
  const std::string label = "Read the refrigerant label: if flammable, ventilate";
  const std::string unplug = "Unplug it";
  const auto first = [](const std::string& page, const std::string& words) { return page.find(words); };
  for (const char* reading : {"heater-plug=OL", "heater-alone=OL"}) {
    const std::string page =
        run_program({"locate", "upright-thermistor-230v", "--width", "200", "--reading", reading}).out;
    EXPECT_LT(first(page, label), first(page, unplug)) << reading;
    EXPECT_LT(first(page, unplug), first(page, "Possible faults")) << reading;
  }
  const std::string unread = run_program({"locate", "upright-thermistor-230v", "--width", "200"}).out;
  EXPECT_LT(first(unread, unplug), first(unread, "NOT FOUND YET"));
  const std::string html = run_program({"locate", "upright-thermistor-230v", "--format", "html"}).out;
  EXPECT_LT(first(html, unplug), first(html, "<h1>"));
}

}  // namespace
}  // namespace ohmwright
