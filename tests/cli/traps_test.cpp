// Readings that mislead, and the sentence that a technician sees for each. The traps are common practice, no source,
// but for those whose figures name one.

#include <algorithm>
#include <sstream>

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

constexpr const char* timer_upright = "upright-timer-bimetal-120v";
constexpr const char* board_upright = "upright-thermistor-230v";

/// What is printed with every run of blanks as one, so that sentences are whole.
/// What `locate` answers, an answer it has to be: found, not found yet, or a stop.
std::string told(std::vector<std::string> words) {
  words.insert(words.begin(), "locate");
  const Ran ran = run_program(words);
  EXPECT_THAT(ran.exit_code, ::testing::AnyOf(0, 1, 3)) << ran.err;
  std::istringstream printed(ran.out);
  std::string all;
  std::string word;
  while (printed >> word) all += word + ' ';
  return all;
}

double probability_of(const std::string& part, std::vector<std::string> words) {
  words.insert(words.begin(), "locate");
  words.insert(words.end(), {"--format", "json"});
  const auto json = nlohmann::json::parse(run_program(words).out);
  for (const auto& row : json["parts"])
    if (row["part"] == part) return row["probability"].get<double>();
  return -1.0;
}

TEST(Traps, AThermostatThatIsOpenBecauseItIsWarmIsHealthy) {
  EXPECT_THAT(told({timer_upright, "thermostat-alone@thawed=OL"}),
              HasSubstr("Defrost thermostat is open because it is warm (21.0 °C ± 3.6 K): a good one is, too. Read it "
                        "again once it is cold or chilled before you doubt it."));
  EXPECT_LT(probability_of("thermostat", {timer_upright, "thermostat-alone@thawed=OL"}), 0.2);
  EXPECT_GT(probability_of("thermostat", {timer_upright, "thermostat-alone@chilled=OL"}), 0.9);
  EXPECT_THAT(told({timer_upright, "thermostat-alone@chilled=OL"}), Not(HasSubstr("because it is warm")));
}

TEST(Traps, AnOpenHeaterHidesBehindTheTimerMotor) {
  EXPECT_THAT(
      told({timer_upright, "--symptom", "frost-whole-coil", "--zone", "coil=-18C",
            "defrost-to-neutral@turned-to-defrost=8.2k", "timer-motor=8.1k"}),
      AllOf(HasSubstr("The likeliest is Defrost heater: element open"),
            HasSubstr("the 8.200 kΩ goes through Defrost timer. A part that is open hides behind ways beside it: "
                      "lift a lead, or pull the connector, and read it alone.")));
}

TEST(Traps, NobodyIsSentToLiveWorkWhileARepeatStillTells) {
  // Heater open and thermostat stuck open: both read twice, and what is left of a slip is one more reading.
  std::vector<std::string> words{timer_upright,
                                 "--symptom",
                                 "frost-whole-coil",
                                 "--symptom",
                                 "warm-cabinet",
                                 "--symptom",
                                 "no-air",
                                 "--looked",
                                 "door-gasket=fine",
                                 "--zone",
                                 "coil=-18C",
                                 "defrost-to-neutral=OL",
                                 "heater-alone=OL",
                                 "thermostat-alone=OL",
                                 "thermostat-alone=OL",
                                 "heater-alone=OL",
                                 "fan-alone=68"};
  EXPECT_THAT(told(words), AllOf(HasSubstr("NOT FOUND YET"), HasSubstr("Do next"), Not(HasSubstr("No unpowered step")),
                                 Not(HasSubstr("--allow-live"))));
  words.insert(words.end(), {"heater-alone=OL", "thermostat-alone=OL"});
  EXPECT_THAT(told(words), HasSubstr("LIKELY: Defrost thermostat: stuck open, or a lead of it broken; and Defrost "
                                     "heater: element open"));
}

// All parts read good, the coil a block of ice: worn gears of the timer, and the ice on the fan follows.
TEST(Traps, ATimerThatDoesNotMoveOnIsSeenAndNotRead) {
  std::vector<std::string> words{timer_upright};
  for (const char* symptom : {"frost-whole-coil", "warm-cabinet", "no-air"})
    words.insert(words.end(), {"--symptom", symptom});
  for (const char* cause :
       {"door-gasket", "outlet-dead", "room-too-cold", "air-blocked", "refrigerant-short", "drain-blocked"})
    words.insert(words.end(), {"--looked", std::string(cause) + "=fine"});
  words.insert(words.end(),
               {"--zone", "coil=-18C", "defrost-to-neutral=31.9", "plug@turned-to-defrost=31.6", "timer-motor=2.9k",
                "plug=5.4", "fan-alone=68.5", "harness-to-earth=OL", "heater-alone=31.7"});
  EXPECT_THAT(told(words), AllOf(HasSubstr("The likeliest is Defrost timer: does not move on by itself"),
                                 HasSubstr("Do next - Look: mark where the timer's shaft stands")));
  std::vector<std::string> stands = words;
  stands.insert(stands.end(), {"--looked", "timer-stands=found"});
  EXPECT_GT(probability_of("timer", stands), 0.99);
  EXPECT_THAT(told(stands), AllOf(HasSubstr("Defrost timer: does not move on by itself"),
                                  HasSubstr("Looked at and found: timer does not move on by itself")));
  std::vector<std::string> moves = words;
  moves.insert(moves.end(), {"--looked", "timer-stands=fine"});
  EXPECT_LT(probability_of("timer", moves), 0.3);
  EXPECT_THAT(told(moves), Not(HasSubstr("no ohms show whether it moves on by itself")));
}

TEST(Traps, ATimerIsNotWatchedWhileALeakWasRead) {
  EXPECT_THAT(told({timer_upright, "--symptom", "frost-whole-coil", "harness-to-earth=45k"}),
              Not(HasSubstr("mark where the timer's shaft stands")));
}

// Good heater, link, sensor and fan, and a coil of ice: what starts a defrost is what is left, and the volts at its
// output tell it. Ice on the fan follows.
TEST(Traps, ABoardThatStartsNoDefrostIsLeftWhereAllElseReadsGood) {
  std::vector<std::string> words{board_upright,  "--symptom",       "frost-whole-coil",
                                 "--zone",       "coil=-18C",       "heater-plug=292",
                                 "fan-plug=215", "sensor-plug=94k", "heater-to-earth=OL"};
  for (const char* cause : {"door-gasket", "outlet-dead", "room-too-cold", "drain-blocked"})
    words.insert(words.end(), {"--looked", std::string(cause) + "=fine"});
  EXPECT_GT(probability_of("board", words), 0.5);
  EXPECT_THAT(told(words), HasSubstr("The likeliest is Control board"));
  std::vector<std::string> live = words;
  live.emplace_back("--allow-live");
  EXPECT_THAT(told(live), HasSubstr("Do next - Volts at the heater output, plug in, after: defrost forced"));
  live.emplace_back("volts-defrost@forced-defrost=0.1V");
  EXPECT_GT(probability_of("board", live), 0.9);
  words.insert(words.end(), {"--symptom", "no-air", "--symptom", "noise"});
  EXPECT_THAT(told(words),
              AllOf(HasSubstr("Evaporator fan: blocked by ice; and Control board: gives its heater nothing"),
                    Not(HasSubstr("LIKELY: Evaporator fan"))));
}

// What was read alone, twice alike, is found; what else may be wrong is said beside it.
TEST(Traps, ASecondReadingAloneThatAgreesSettlesAPart) {
  EXPECT_THAT(told({timer_upright, "--symptom", "frost-whole-coil", "--symptom", "warm-cabinet", "--symptom", "no-air",
                    "--looked", "door-gasket=fine", "--zone", "coil=-18C", "defrost-to-neutral=OL", "heater-alone=OL",
                    "thermostat-alone=0.25", "heater-alone=OL"}),
              AllOf(HasSubstr("FOUND: Defrost heater: element open"),
                    HasSubstr("Something else may be wrong beside it"), Not(HasSubstr("read it once more"))));
}

TEST(Traps, ThePartThatIsLikelyIsReadAloneNext) {
  EXPECT_THAT(told({timer_upright, "--symptom", "frost-whole-coil", "--symptom", "warm-cabinet", "--looked",
                    "door-gasket=fine", "defrost-to-neutral@turned-to-defrost=32.1", "plug@turned-to-defrost=5.2"}),
              AllOf(HasSubstr("LIKELY: Defrost timer: stuck in run"), HasSubstr("read that part alone"),
                    HasSubstr("Do next - Timer's line to")));
}

// The place of a leak that two readings cannot tell is not named, and 45 kilohm are expected where 45 were read.
TEST(Traps, ALeakIsExpectedAsItWasReadAndNamedByItsPart) {
  const std::vector<std::string> words{timer_upright, "--symptom", "trips-residual-current-device",
                                       "harness-to-earth=45k"};
  EXPECT_THAT(told(words), HasSubstr("45 kΩ if Defrost heater: leaks to the frame"));
  std::vector<std::string> twice = words;
  twice.emplace_back("heater-to-frame=45k");
  EXPECT_THAT(told(twice),
              AllOf(HasSubstr("FOUND: Defrost heater The chance"), Not(HasSubstr("FOUND: Defrost heater:"))));
}

TEST(Traps, ABreakerTripsByNothingThatCannotTripIt) {
  EXPECT_LT(probability_of("fan", {timer_upright, "--symptom", "trips-breaker"}), 0.2);
  EXPECT_LT(probability_of("timer", {timer_upright, "--symptom", "trips-breaker"}), 0.2);
}

TEST(Traps, ABrokenTestLeadShowsOpenEverywhere) {
  const std::vector<std::string> all_open{
      "upright-shared-neutral-230v", "--symptom", "frost-whole-coil", "heater-alone=OL", "harness=OL",
      "heater-in-place@thawed=OL"};
  EXPECT_THAT(told(all_open), AllOf(HasSubstr("LIKELY: Defrost heater: element open"), Not(HasSubstr("FOUND:")),
                                    HasSubstr("Every reading is OL. A broken test lead")));
  // One value shows that the leads are sound, and the heater is found.
  std::vector<std::string> with_value = all_open;
  with_value.emplace_back("fan-alone=310");
  EXPECT_THAT(told(with_value),
              AllOf(HasSubstr("FOUND: Defrost heater: element open"), Not(HasSubstr("Every reading is OL"))));
}

TEST(Traps, AnOpenNeutralHidesBehindTheFan) {
  // Heater 294 ohm, then fan and compressor in series with each other: high, not open.
  EXPECT_THAT(
      told({"upright-shared-neutral-230v", "harness@chilled=560"}),
      AllOf(HasSubstr("The likeliest is Splice of the shared neutral: open"),
            HasSubstr("the 560.0 Ω goes through Evaporator fan. A part that is open hides behind ways beside it")));
}

TEST(Traps, AConnectorThatIsStillIn) {
  EXPECT_THAT(told({timer_upright, "heater-alone=32", "timer-motor=5.8", "plug=5.6"}),
              HasSubstr("Timer's motor, line to neutral terminal, connector pulled: 5.800 Ω is what it shows with the "
                        "connector still in or the lead still on. Pull it and measure again."));
  EXPECT_LT(probability_of("timer", {timer_upright, "heater-alone=32", "timer-motor=5.8", "plug=5.6"}), 0.3);
}

TEST(Traps, ATimerThatWasTurnedWhenItWasRead) {
  // In run the plug shows compressor and fan, in defrost the heater.
  EXPECT_THAT(
      told({timer_upright, "harness@chilled=32.5", "timer-motor=8.1k", "timer-run-contact=0.3", "plug=32.6"}),
      HasSubstr("Between live and neutral pin of the mains plug: 32.60 Ω is what it shows after: timer turned by "
                "hand to defrost. Was it so?"));
}

TEST(Traps, TheTestLeadsAgainstASplice) {
  EXPECT_THAT(
      told({timer_upright, "splice-alone=0.4"}),
      HasSubstr("Across the splice, an end off: of the 0.4000 Ω, about 0.20 Ω are the test leads' own. Short the "
                "probes and zero them, or take off what they read. Whether a joint is good that near to nothing, "
                "only the drop across it under load tells."));
  EXPECT_THAT(told({timer_upright, "thermostat-alone@chilled=0.3"}), Not(HasSubstr("are the test leads' own")))
      << "a contact is closed with that";
  EXPECT_LT(probability_of("splice", {timer_upright, "splice-alone=0.4"}), 0.1);
  EXPECT_GT(probability_of("splice", {timer_upright, "splice-alone=5.2"}), 0.9);
}

TEST(Traps, TwoFaultsThatMaskEachOther) {
  const std::vector<std::string> words{timer_upright,
                                       "--allow-live",
                                       "--zone",
                                       "coil=-18C",
                                       "thermostat-alone=OL",
                                       "heater-alone=OL",
                                       "volts-heater@forced-defrost=38V"};
  EXPECT_GT(probability_of("thermostat", words), 0.95);
  EXPECT_GT(probability_of("heater", words), 0.95);
  EXPECT_THAT(
      told(words),
      AllOf(HasSubstr("LIKELY: Defrost thermostat: stuck open, or a lead of it broken; and Defrost heater: element "
                      "open"),
            HasSubstr("More than one part is at fault, and each hides the other: mending one alone does not make "
                      "it run. Read each alone, and read again after each that is mended.")));
}

TEST(Traps, AnIntermittentSplice) {
  EXPECT_THAT(
      told({timer_upright, "splice-alone=0.3", "splice-alone=OL"}),
      AllOf(HasSubstr("Splice between thermostat and heater: comes and goes as it is moved, warmed or shaken"),
            HasSubstr("Across the splice, an end off gave 0.3000 Ω and then OL: it comes and goes. Clip the probes "
                      "on and move the leads while you watch, one joint after the other.")));
}

TEST(Traps, AJointReadAloneThatJumpsBetweenOhmsComesAndGoes) {
  const std::vector<std::string> told_alone{timer_upright, "--symptom", "comes-and-goes", "--zone", "coil=-18C"};
  const auto splice = [&](std::vector<std::string> more) {
    more.insert(more.begin(), told_alone.begin(), told_alone.end());
    return more;
  };
  const std::vector<std::string> jumps =
      splice({"splice-alone=0.2", "splice-alone=42", "splice-alone=0.3", "splice-alone=55"});
  EXPECT_GT(probability_of("splice", jumps), 0.95);
  EXPECT_THAT(told(jumps), AllOf(HasSubstr("Splice between thermostat and heater: comes and goes"),
                                 Not(HasSubstr("Nothing of the possible faults explains it"))));
  // The ohms of the wire from its plug jump, too, and parts beside it read good.
  EXPECT_GT(
      probability_of("splice", splice({"splice-alone=0.2", "splice-alone=42", "splice-alone=0.3", "splice-alone=55",
                                       "heater-alone=31.8", "thermostat-alone=0.2", "harness=32", "harness=74"})),
      0.95);
  EXPECT_GT(
      probability_of("splice", splice({"splice-alone=0.2", "splice-alone=8", "splice-alone=0.2", "splice-alone=7"})),
      0.9);
}

TEST(Traps, AHeaterThatComesAndGoes) {
  const std::vector<std::string> words{timer_upright, "heater-alone=32", "heater-alone=OL"};
  EXPECT_THAT(told(words), AllOf(HasSubstr("The likeliest is Defrost heater: comes and goes: a break in it that closes "
                                           "again"),
                                 HasSubstr("gave 32.00 Ω and then OL: it comes and goes.")));
  EXPECT_GT(probability_of("heater", words), 0.4);
  EXPECT_GT(probability_of("heater", {timer_upright, "heater-alone=32", "heater-alone=OL", "heater-alone=OL"}), 0.8)
      << "a slip is rarely made twice";
}

TEST(Traps, ASensorThatComesAndGoes) {
  const std::vector<std::string> words{board_upright, "--zone", "coil=0C", "sensor-plug=33k", "sensor-plug=OL"};
  EXPECT_THAT(
      told(words),
      AllOf(HasSubstr("The likeliest is Coil sensor: comes and goes: a break in it or its lead that closes again"),
            HasSubstr("gave 33.00 kΩ and then OL: it comes and goes.")));
  EXPECT_GT(probability_of("sensor", words), 0.5);
}

TEST(Traps, AShortIsAFaultOfItsOwn) {
  // A heater whose leads touch, one with half of its 31 ohm bridged, a sensor without any resistance.
  const std::vector<std::string> short_one{timer_upright, "heater-alone=0.3"};
  EXPECT_THAT(told(short_one), HasSubstr("Defrost heater: its leads touch, or all of its wire is bridged"));
  EXPECT_GT(probability_of("heater", short_one), 0.9);
  EXPECT_GT(probability_of("heater", {timer_upright, "--symptom", "trips-breaker", "heater-alone=0.3"}), 0.95);
  EXPECT_THAT(told({timer_upright, "heater-alone=15.5"}),
              HasSubstr("LIKELY: Defrost heater: part of its wire bridged"));
  EXPECT_THAT(told({board_upright, "--zone", "coil=0C", "sensor-plug=0.3ohm"}),
              HasSubstr("LIKELY: Coil sensor: shorted sensor or lead"));
}

TEST(Traps, AGhostVoltage) {
  EXPECT_THAT(
      told(
          {timer_upright, "--allow-live", "thermostat-alone=OL", "heater-alone=OL", "volts-heater@forced-defrost=38V"}),
      HasSubstr("Volts across the heater: 38.00 V may be a ghost, on a wire that hangs in the air. Read it again on "
                "the low-impedance input or with a load on it; treat it as live until then."));
}

TEST(Traps, AnOpenNeutralIsLive) {
  const std::vector<std::string> words{"upright-shared-neutral-230v", "--allow-live",
                                       "volts-shared-neutral@forced-defrost=228V"};
  EXPECT_THAT(told(words),
              HasSubstr("Volts from the shared neutral to the neutral of the plug: nearly the whole supply "
                        "where there should be none. The way to neutral is open: what looks like neutral is "
                        "live. Unplug it before you touch anything."));
  EXPECT_GT(probability_of("neutral-splice", words), 0.8);
  EXPECT_GT(probability_of("neutral-splice", {"upright-shared-neutral-230v", "harness@chilled=560",
                                              "volts-shared-neutral@forced-defrost=228V", "--allow-live"}),
            0.95);
}

TEST(Traps, AnIcedFanIsAConsequence) {
  EXPECT_THAT(
      told({timer_upright, "--symptom", "no-air", "--symptom", "noise", "--symptom", "frost-whole-coil",
            "heater-alone=32", "thermostat-alone=0.3", "--looked", "door-gasket=fine"}),
      AllOf(HasSubstr("LIKELY: Evaporator fan: blocked by ice"),
            HasSubstr("Evaporator fan: blocked by ice. That may be the consequence of another fault; a new part "
                      "alone goes the same way."),
            HasSubstr("Look for what may have caused it first: Defrost heater"),
            HasSubstr("Look for what may have caused it first: Defrost timer")));
}

TEST(Traps, FrostSaysLessAfterAThaw) {
  EXPECT_THAT(told({timer_upright, "--symptom", "frost-whole-coil", "--thawed"}),
              HasSubstr("The whole coil is thick with frost (seen after a thaw: it says less)"));
  const double none = probability_of("heater", {timer_upright});
  const double fresh = probability_of("heater", {timer_upright, "--symptom", "frost-whole-coil"});
  const double thawed = probability_of("heater", {timer_upright, "--symptom", "frost-whole-coil", "--thawed"});
  EXPECT_GT(fresh, thawed);
  EXPECT_GT(thawed, none);
}

TEST(Traps, ATemperatureThatNobodyMeasuredCondemnsNothing) {
  // What a good sensor of 10 kohm at 25 degC reads from +10 to -8 degC: a panel off, the coil on its way to the room.
  for (const char* shown : {"20k", "25k", "30k", "36k", "47k", "50k"}) {
    const std::vector<std::string> words{"upright-thermistor-230v", "--symptom", "frost-whole-coil",
                                         std::string("sensor-plug=") + shown};
    EXPECT_LT(probability_of("sensor", words), 0.3) << shown;
    EXPECT_THAT(told(words), AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:")),
                                   HasSubstr("hangs on the temperature of the evaporator coil, which nobody measured")))
        << shown;
  }
  const std::vector<std::string> measured{"upright-thermistor-230v", "sensor-plug=47k", "--zone", "coil=-7C"};
  EXPECT_THAT(told(measured), Not(HasSubstr("nobody measured")));
  for (const char* appliance : {timer_upright, "upright-shared-neutral-230v", "bottom-freezer-board-bimetal-120v"})
    for (const char* thawed : {"", "--thawed"}) {
      std::vector<std::string> words{appliance, "--symptom", "frost-whole-coil", "thermostat-alone=OL"};
      if (*thawed != 0) words.emplace_back(thawed);
      EXPECT_LT(probability_of("thermostat", words), 0.7) << appliance << thawed;
      EXPECT_THAT(told(words), AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:")))) << appliance << thawed;
    }
  EXPECT_THAT(told({timer_upright}), HasSubstr("Temperature of the evaporator coil: not measured, anything from -35.0 "
                                               "°C to 35.0 °C (--zone coil=... says it)."));
}

TEST(Traps, ACoilThatRunsIsColderThanItsFile) {
  // What a good sensor of 10 kohm at 25 degC reads at -23.5 and -27.5 degC.
  for (const char* shown : {"sensor-plug=118k", "sensor-plug=150k"}) {
    const std::vector<std::string> words{board_upright, "--symptom", "warm-food-after-defrost", shown};
    EXPECT_THAT(told(words), AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:")))) << shown;
  }
}

TEST(Traps, ARoomThatIsWarmWarmsTheCoil) {
  const std::vector<std::string> words{board_upright, "--symptom", "warm-cabinet", "sensor-plug=6.0k"};
  std::vector<std::string> in_heat = words;
  in_heat.insert(in_heat.end(), {"--zone", "room=38C"});
  EXPECT_THAT(told(in_heat), AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:")), HasSubstr("to 39.0 °C")));
}

TEST(Traps, WhatHasJustHeatedIsNotCondemnedForBeingHot) {
  const std::vector<std::string> run_before{"vented-dryer-230v", "cycling-alone=OL", "heat-wire=OL",
                                            "heater-alone=26.6", "limit-alone=0.1",  "link-alone=0.1"};
  EXPECT_THAT(told(run_before),
              AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:")),
                    HasSubstr("hangs on the temperature of the air outlet of the drum, which nobody measured")));
  std::vector<std::string> cold = run_before;
  cold.insert(cold.end(), {"--zone", "outlet=21C"});
  EXPECT_GT(probability_of("cycling", cold), 0.95);
  EXPECT_THAT(told(cold), Not(HasSubstr("NOT FOUND YET")));
  EXPECT_THAT(told({"drum-dryer-230v", "--symptom", "no-heat", "cycling-alone=OL"}),
              AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:"))));
  EXPECT_THAT(told({"built-in-oven-230v", "sensor-plug=1194"}),
              AllOf(Not(HasSubstr("LIKELY")), Not(HasSubstr("FOUND:"))));
}

TEST(Traps, SomeVoltsAtADeadOutputAreNoShort) {
  for (const char* shown : {"0.3V", "0.4V", "0.8V"}) {
    const std::string word = std::string("volts-defrost@forced-defrost=") + shown;
    const std::vector<std::string> words{
        timer_upright, "--symptom", "frost-whole-coil", "--zone", "coil=-18C", "--allow-live", word, word, word};
    EXPECT_THAT(told(words), Not(HasSubstr("LIKELY: Defrost heater"))) << shown;
    EXPECT_LT(probability_of("heater", words), 0.3) << shown;
  }
}

TEST(Traps, AForgottenKIsAskedFor) {
  EXPECT_THAT(run_program({"locate", board_upright, "sensor-plug=11.0"}).err,
              HasSubstr("write \"11.0 ohm\" or \"11.0k\": a thousand lies between them"));
  EXPECT_EQ(run_program({"locate", board_upright, "sensor-plug=11.0"}).exit_code, 2);
  EXPECT_THAT(run_program({"locate", "bottom-freezer-thermistor-230v", "sensor-plug=11.0"}).err,
              HasSubstr("a thousand lies between them"))
      << "through its connector";
  EXPECT_EQ(run_program({"locate", board_upright, "heater-alone=294", "link-alone=0.2"}).err, "");
}

TEST(Traps, WhatNoInstrumentShowsIsRefused) {
  EXPECT_THAT(run_program({"locate", board_upright, "sensor-plug=1e300k"}).err, HasSubstr("no instrument shows"));
  for (const char* beyond : {"volts-heater@forced-defrost=9.9kV", "volts-heater@forced-defrost=1001V"})
    EXPECT_THAT(run_program({"locate", timer_upright, "--allow-live", beyond}).err, HasSubstr("no instrument shows"))
        << beyond;
  EXPECT_EQ(run_program({"locate", timer_upright, "--allow-live", "volts-heater@forced-defrost=1000V"}).err, "")
      << "the end of a meter itself";
  EXPECT_THAT(run_program({"locate", board_upright, "--unplugged", "24h", "--ran-well", "1e300d"}).err,
              HasSubstr("a time of at most 100 years"));
}

TEST(Traps, ASpliceReadTwiceWithinADigitDoesNotComeAndGo) {
  const std::vector<std::string> words{timer_upright, "--zone", "coil=-18C", "splice-alone=0.2", "splice-alone=0.25"};
  EXPECT_THAT(told(words), Not(HasSubstr("comes and goes")));
}

TEST(Traps, ASetUpThatDidNotTake) {
  // The compressor's winding: what is read when the shaft was not turned as far as the click.
  const std::vector<std::string> words{timer_upright, "--symptom", "frost-whole-coil", "plug@turned-to-defrost=5.2"};
  EXPECT_LT(probability_of("timer", words), 0.9);
  EXPECT_THAT(told(words), AllOf(HasSubstr("NOT FOUND YET"), HasSubstr("5.200 Ω is what it shows as found. Did the "
                                                                       "set-up take")));
}

TEST(Traps, NothingThatShocksTripsOrBurnsIsReadLive) {
  const auto live_steps = [](std::vector<std::string> words) {
    words.insert(words.begin(), "locate");
    words.insert(words.end(), {"--allow-live", "--format", "json"});
    int live = 0;
    const auto json = nlohmann::json::parse(run_program(words).out);
    for (const auto& step : json["steps"]) live += step.value("live", false) ? 1 : 0;
    return live;
  };
  EXPECT_GT(live_steps({timer_upright}), 0);
  for (const char* symptom : {"shock-from-cabinet", "trips-breaker", "trips-residual-current-device", "hum-or-smell"}) {
    EXPECT_EQ(live_steps({timer_upright, "--symptom", symptom}), 0) << symptom;
    EXPECT_THAT(told({timer_upright, "--symptom", symptom}), HasSubstr("Before all else read the insulation"))
        << symptom;
  }
  EXPECT_EQ(live_steps({timer_upright, "plug=0.2"}), 0);
  EXPECT_THAT(told({timer_upright, "plug=0.2"}), HasSubstr("STOP, do not plug it in"));
}

/// A forced defrost puts the line on a heater: something is read to the protective earth before it, whatever the sign
/// (common practice, no source).
TEST(Traps, SomethingIsReadToEarthBeforeTheFirstLiveStep) {
  constexpr std::ptrdiff_t none = 1000;
  constexpr std::ptrdiff_t offered = 4;  // a page shows no more
  struct Places {
    std::ptrdiff_t live = none;
    std::ptrdiff_t earth = none;
  };
  const auto places = [](std::vector<std::string> words) {
    words.insert(words.begin(), "locate");
    words.insert(words.end(), {"--allow-live", "--format", "json"});
    const auto json = nlohmann::json::parse(run_program(words).out);
    Places found;
    std::ptrdiff_t at = 0;
    for (const auto& step : json["steps"]) {
      const std::string point = step.value("test_point", "");
      const bool is_to_earth =
          point.find("to-earth") != std::string::npos || point.find("to-frame") != std::string::npos;
      if (step.value("live", false)) found.live = std::min(found.live, at);
      if (is_to_earth) found.earth = std::min(found.earth, at);
      ++at;
    }
    return found;
  };
  for (const char* appliance : {timer_upright, board_upright, "upright-shared-neutral-230v"})
    for (const char* symptom : {"no-defrost", "frost-whole-coil"}) {
      const Places first = places({appliance, "--symptom", symptom, "--zone", "coil=-18C"});
      EXPECT_TRUE(first.live >= offered || first.earth < first.live) << appliance << ' ' << symptom;
    }
  const std::vector<std::string> words{timer_upright, "--symptom", "no-defrost", "--zone", "coil=-18C"};
  EXPECT_LT(places(words).live, none) << "live steps are there";
  std::vector<std::string> read = words;
  read.emplace_back("harness-to-earth=OL");
  EXPECT_LT(places(read).live, places(read).earth) << "once is enough where no sign speaks of a leak";
}

TEST(Traps, OnceALeakWasReadThePageAsksForNoFirstInsulation) {
  EXPECT_THAT(told({timer_upright, "--symptom", "trips-breaker", "harness-to-earth=0.2M"}),
              AllOf(HasSubstr("STOP, do not energise it"), Not(HasSubstr("Before all else"))));
}

TEST(Traps, WhatWasNotReadToTheFrameKeepsLiveStepsWaiting) {
  // The wire of the defrost shows neither heater nor fan while the thermostat behind it is warm, and so open.
  std::vector<std::string> words{timer_upright, "--symptom", "shock-from-cabinet", "--allow-live",
                                 "harness-to-earth=OL"};
  EXPECT_THAT(told(words), AllOf(HasSubstr("No live step yet"), HasSubstr("(locate: --insulation-good)"),
                                 HasSubstr("Heater to its frame, both leads off")));
  words.emplace_back("--insulation-good");
  EXPECT_THAT(told(words), Not(HasSubstr("No live step yet")));
}

TEST(Traps, AfterAShockTheInsulationComesFirst) {
  const std::vector<std::string> words{"upright-thermistor-230v", "--symptom", "shock-from-cabinet", "--format",
                                       "json"};
  std::vector<std::string> all{"locate"};
  all.insert(all.end(), words.begin(), words.end());
  const auto first = nlohmann::json::parse(run_program(all).out)["steps"][0];
  EXPECT_THAT(first["test_point"].get<std::string>(), HasSubstr("earth"));
}

TEST(Traps, AStableVoltageBehindAWindingIsNoGhost) {
  // 2 kohm of fan before 10 Mohm of meter: 229.95 V by hand. As found, no heater in it.
  const auto neutral_splice = [](const char* shown) {
    return probability_of("neutral-splice", {"upright-shared-neutral-230v", "--allow-live",
                                             std::string("volts-shared-neutral=") + shown});
  };
  EXPECT_GT(neutral_splice("230V"), neutral_splice("30V"));
  EXPECT_GT(neutral_splice("230V"), 0.7);
  const std::vector<std::string> ghost{timer_upright,
                                       "--allow-live",
                                       "thermostat-alone=OL",
                                       "heater-alone=OL",
                                       "volts-heater@forced-defrost=38V",
                                       "volts-heater@forced-defrost=0.2V on low-impedance"};
  EXPECT_THAT(told(ghost), Not(HasSubstr("it comes and goes")));
}

TEST(Traps, AGhostFallsAwayOnTheLowImpedanceInput) {
  // 300 kohm, not 10: of 120 V behind 13 Mohm of stray capacitance they leave 2.8 V, by hand.
  const auto after = [](const char* shown) {
    return told({timer_upright, "--symptom", "no-defrost", "--allow-live", "volts-defrost@forced-defrost=63V",
                 std::string("volts-defrost@forced-defrost=") + shown + " on low-impedance"});
  };
  for (const char* shown : {"0.2V", "1V", "3V", "5V"})
    EXPECT_THAT(after(shown), AllOf(HasSubstr("63.00 V fell away to "), HasSubstr("it was a ghost."),
                                    Not(HasSubstr("Nothing of the possible faults explains it"))))
        << shown;
  EXPECT_THAT(after("60V"), Not(HasSubstr("fell away")));
  EXPECT_THAT(told({timer_upright, "--symptom", "no-defrost", "--allow-live",
                    "volts-defrost@forced-defrost=3V on low-impedance"}),
              AllOf(Not(HasSubstr("fell away")), Not(HasSubstr("The likeliest is Defrost timer: contact to the heater "
                                                               "burnt"))));
}

TEST(Traps, ASignThatNothingBringsAboutIsNamed) {
  EXPECT_THAT(told({"dishwasher-120v", "--symptom", "door-does-not-close"}),
              HasSubstr("Nothing that this appliance's file knows brings this about"));
  EXPECT_THAT(run_program({"locate", timer_upright, "--symptom", "warm"}).err,
              HasSubstr("did you mean \"warm-cabinet\"?"));
  EXPECT_THAT(run_program({"appliance", "show", timer_upright}).out, HasSubstr("frost-whole-coil: The whole coil is"));
}

TEST(Traps, WhatALogSaysMovesAPart) {
  for (const char* appliance :
       {timer_upright, "upright-shared-neutral-230v", "upright-thermistor-230v", "bottom-freezer-board-bimetal-120v",
        "bottom-freezer-thermistor-230v", "combination-two-evaporators-230v", "display-freezer-timer-230v"}) {
    const double none = probability_of("heater", {appliance});
    if (none < 0.0) continue;  // it has two heaters, under other names
    EXPECT_GT(probability_of("heater", {appliance, "--symptom", "no-heat"}), 1.5 * none) << appliance;
    EXPECT_GT(probability_of("heater", {appliance, "--symptom", "little-heat"}), 1.5 * none) << appliance;
  }
}

}  // namespace
}  // namespace ohmwright
