// One service call through the program: what goes in for what, and when a repair is closed.

#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/verdict/caution.hpp>

#include "job_call.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

/// A caution that the book says was shown was shown.
TEST_F(JobCall, ShowsTheCautionsOfAReplacementAndListsThemWithTheirSources) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(
      done({"replace", "heater", "--new", "heater-450w-120v"}),
      AllOf(HasSubstr("Before you touch it\n  - Unplug it and keep the plug in sight"), HasSubstr("Never bridge")));
  const nlohmann::json cautions = report()["cautions"];
  std::vector<std::string> ids;
  for (const nlohmann::json& caution : cautions) ids.push_back(caution["id"]);
  for (const std::string_view of_step : cautions_of_step("replace-a-part"))
    EXPECT_THAT(ids, Contains(std::string(of_step)));
  for (const nlohmann::json& caution : cautions) {
    EXPECT_NE(caution["source"], "") << caution;  // a kind's own, too
    const Caution* known = caution_named(caution["id"].get<std::string>());
    EXPECT_TRUE(known == nullptr || caution["source"] == std::string(known->source)) << caution;
  }
}

/// What a kind says of reading it holds for putting in a new one, too: a capacitor stays charged, and the high-voltage
/// circuit of a microwave oven is nothing to reach into.
TEST_F(JobCall, ShowsTheCautionsOfTheKindThatIsReplaced) {
  done({"open", "a"});
  EXPECT_THAT(done({"replace", "run-capacitor", "--old", "run-10uf", "--new", "run-10uf"}),
              HasSubstr("Discharge capacitors"));
  EXPECT_THAT(done({"replace", "thermal-link", "--new", "unknown", "--because", "its stamp is burnt off"}),
              HasSubstr("high-voltage"));
  const nlohmann::json cautions = report()["cautions"];
  std::map<std::string, std::string> sources;
  for (const nlohmann::json& caution : cautions) sources[caution["id"]] = caution["source"];
  EXPECT_EQ(sources.count("capacitor-charge"), 1U);
  EXPECT_EQ(sources.count("flammable-refrigerant"), 1U);
  EXPECT_THAT(sources["microwave-high-voltage"], HasSubstr("IEC 60335-2-25")) << "a kind's own, by its own words";
}

/// After a repair its proof comes next, and a search only where something speaks of another fault.
TEST_F(JobCall, OffersTheProofOfARepairNext) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  const Ran next = run({"next"});
  EXPECT_EQ(next.exit_code, 3);
  EXPECT_THAT(next.out, AllOf(HasSubstr("Do next: prove the repair."), HasSubstr("Unplug it"),
                              HasSubstr("job read heater insulation=200M --test 500V --proved-dead"),
                              HasSubstr("job read heater-alone=VALUE"), Not(HasSubstr("Possible faults"))));
  const Ran card = run({"card"});
  EXPECT_EQ(card.exit_code, 3);
  EXPECT_THAT(card.out, HasSubstr("Do next: prove the repair."));
  std::istringstream lines(card.out);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 40U) << line;
  EXPECT_THAT(run({"find"}).out, HasSubstr("Possible faults"));
  run({"read", "heater-alone=OL"});
  EXPECT_THAT(run({"next"}).out, Not(HasSubstr("prove the repair"))) << "the new one is open, too";
  done({"correct", "last"});
  EXPECT_THAT(run({"next"}).out, HasSubstr("prove the repair"));
  done({"sign", "--symptom", "frost-whole-coil"});
  EXPECT_THAT(run({"next"}).out, Not(HasSubstr("prove the repair"))) << "seen since the repair";
}

/// Open before and open after: no single part stands out, and still it is no repair.
TEST_F(JobCall, ClosesNoRepairAfterWhichTheCircuitIsAsDeadAsBefore) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--answer", "tingles=no"});
  done({"sign", "--zone", "coil=-18C"});
  run({"read", "harness=OL"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  done({"sign", "--zone", "coil=-18C"});
  run({"read", "harness=OL"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("something is still wrong"));
  run({"read", "harness=32"});
  run({"read", "harness=32"});
  EXPECT_EQ(run({"close", "repaired"}).exit_code, 0);
}

/// 500 V destroy the electronics of a fan for extra-low voltage: its proof is all that an ohmmeter can tell.
TEST_F(JobCall, AsksNo500VoltsOfADirectCurrentFan) {
  done({"open", "a"});
  EXPECT_THAT(done({"replace", "fan-motor", "--old", "ec-12v", "--new", "ec-12v"}),
              AllOf(HasSubstr("no 500 V"), Not(HasSubstr("insulation=200M --test"))));
  EXPECT_THAT(done({"replace", "heater", "--old", "heater-450w-120v", "--new", "heater-450w-120v"}),
              HasSubstr("insulation=200M --test"));
  done({"correct", "last"});
  EXPECT_THAT(run({"wait", "log"}).err, HasSubstr("not proved safe to energise"));
  run({"read", "fan-motor", "insulation=OL", "--ratings", "ec-12v", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("500 V")));
  EXPECT_EQ(run({"wait", "log"}).exit_code, 0);
}

TEST_F(JobCall, RefusesAPartThatIsNoEquivalentUnlessToldWhy) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const std::string refusal = refused({"replace", "heater", "--new", "heater-180w-230v"});
  EXPECT_THAT(refusal, AllOf(HasSubstr("no equivalent of Defrost heater"), HasSubstr("--because")));
  done({"replace", "heater", "--new", "heater-180w-230v", "--because", "for one night"});
  EXPECT_EQ(report()["replaced"][0]["because"], "for one night");
}

/// What went in for a reason is not what the appliance was made for, and whoever comes next is told so.
TEST_F(JobCall, ComparesANewPartWithWhatTheApplianceWasMadeFor) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "heater-180w-230v", "--because", "for one night"});
  EXPECT_THAT(refused({"replace", "heater", "--new", "heater-180w-230v"}),
              HasSubstr("no equivalent of Defrost heater"));
  EXPECT_THAT(done({"replace", "heater", "--new", "heater-450w-120v"}), HasSubstr("can stand in for the old one"));
  EXPECT_EQ(report()["replaced"][1]["old"], "heater-180w-230v") << "what came out is told as it was";
  EXPECT_THAT(refused({"replace", "heater", "--new", "unknown"}),
              AllOf(HasSubstr("an equivalent of Defrost heater cannot be told"), HasSubstr("--because")));
  EXPECT_THAT(refused({"replace", "thermostat", "--new", "opens-16"}), HasSubstr("--because"));
  EXPECT_THAT(refused({"replace", "thermostat", "--old", "any-defrost", "--new", "any-defrost"}),
              HasSubstr("cannot be told"));
}

/// The class "opens-13" is open above 13 °C, and 10 kΩ at 25 °C with B 3977 K are 12.5 kΩ at 20 °C (beta equation).
TEST_F(JobCall, CondemnsNothingByATemperatureThatNobodyMeasured) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const Ran warm = run({"read", "thermostat-alone=OL"});
  EXPECT_EQ(warm.exit_code, 3) << warm.out;
  EXPECT_THAT(warm.out, AllOf(Not(HasSubstr("OUT OF SPEC")), HasSubstr("job sign --zone coil=4C")));
  done({"sign", "--zone", "coil=-18C"});
  EXPECT_EQ(run({"read", "thermostat-alone=OL"}).exit_code, 1) << "open where it is cold";
  done({"open", "b", "--appliance", "upright-thermistor-230v"});
  done({"replace", "sensor", "--new", "ntc-10k-b3977"});
  EXPECT_EQ(run({"read", "sensor-plug=12.5k"}).exit_code, 3);
  done({"sign", "--zone", "coil=20C ± 0.5 K"});
  EXPECT_EQ(run({"read", "sensor-plug=12.5k"}).exit_code, 0);
}

TEST_F(JobCall, ClosesNoRepairBeforeItIsProvedWhateverPartWentIn) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(done({"replace", "timer", "--new", "cam-timer-120v"}),
              AllOf(HasSubstr("the insulation of a part at the mains"), HasSubstr("And the earth bond")));
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("no insulation was read since"), HasSubstr("The earth bond was not read")));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  EXPECT_EQ(run({"read", "timer-motor=OL"}).exit_code, 1);
  EXPECT_THAT(run({"verify"}).out,
              AllOf(HasSubstr("the new one is out of its limits"), HasSubstr("timer-motor=VALUE")));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("the new one is out of its limits"));
  done({"correct", "last", "--because", "a lead was off"});
  done({"close", "repaired"});
}

/// Nobody measured its temperature, so that no reading tells whether the new sensor is good.
TEST_F(JobCall, ClosesNoRepairWhoseNewPartNobodyCanTellWithoutAWordWhy) {
  done({"open", "a", "--appliance", "upright-thermistor-230v"});
  done({"replace", "sensor", "--new", "ntc-10k-b3977"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  EXPECT_EQ(run({"read", "sensor-plug=12.5k"}).exit_code, 3);
  EXPECT_THAT(run({"verify"}).out, HasSubstr("whether the new one is good cannot be told"));
  EXPECT_THAT(refused({"close", "repaired"}), AllOf(HasSubstr("is not closed as repaired without a word why"),
                                                    HasSubstr("sensor-plug=VALUE"), HasSubstr("--because TEXT")));
  const std::string closed = done({"close", "repaired", "--because", "cabinet cold again after a night"});
  EXPECT_THAT(closed, AllOf(HasSubstr("State: repaired"), HasSubstr("Still unproved"),
                            HasSubstr("whether the new one is good cannot be told"), HasSubstr("A log over some")));
  const nlohmann::json json = report();
  EXPECT_THAT(json["unproved"].dump(), HasSubstr("whether the new one is good cannot be told"));
  EXPECT_THAT(json["customer"]["proof"].dump(), HasSubstr("that the new one is good was not proved"));
  EXPECT_THAT(run({"report"}).out, AllOf(HasSubstr("repaired, cabinet cold again"), HasSubstr("Still unproved")));
}

/// Bridged with a piece of wire it reads as good as new (IEC 60691: a thermal link opens once; from memory).
TEST_F(JobCall, ABridgedLinkIsNoRepairAndNoForcedDefrostIsMadeWithIt) {
  done({"open", "a", "--appliance", "upright-thermistor-230v", "--zone", "coil=-18C"});
  EXPECT_THAT(refused({"replace", "link", "--mended", "crimped anew"}), HasSubstr("was not read by itself"));
  EXPECT_EQ(run({"read", "link-alone=OL on 20M", "link-alone=OL on 20M"}).exit_code, 1);
  EXPECT_THAT(refused({"replace", "link", "--mended", "bridged with a piece of wire"}),
              AllOf(HasSubstr("opens once and for good"), HasSubstr("job replace link --new NAME"),
                    HasSubstr("job correct ENTRY")));
  EXPECT_THAT(refused({"verify", "--forced-defrost", "no-heat", "--live-agreed"}), HasSubstr("no forced defrost"));
  EXPECT_THAT(run({"read", "link-alone=0.1"}).out,
              AllOf(HasSubstr("Not plugged in before"), HasSubstr("may be a bridge")));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr("may be a bridge"));
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), HasSubstr("may be a bridge"));
  EXPECT_THAT(run({"report"}).out, HasSubstr("Do not plug it in"));
  done({"replace", "link", "--new", "tf-72"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_EQ(run({"read", "link-alone=0.1"}).exit_code, 0);
  EXPECT_NE(run({"verify", "--forced-defrost", "ended", "--live-agreed"}).exit_code, 2);
  done({"close", "repaired"});
}

/// So does a link in the housing of a thermostat, whose contact is judged beside it.
TEST_F(JobCall, ABridgedLinkInAThermostatsHousingIsNoRepairEither) {
  done({"open", "a", "--appliance", "bottom-freezer-board-bimetal-120v", "--zone", "coil=-18C"});
  const Ran open = run({"read", "link-alone=OL on 20M", "link-alone=OL on 20M"});
  EXPECT_EQ(open.exit_code, 1) << open.out;
  EXPECT_THAT(open.out, HasSubstr("OUT OF SPEC"));
  const std::string refusal = refused({"replace", "thermostat", "--mended", "link bridged with a piece of wire"});
  EXPECT_THAT(refusal, AllOf(HasSubstr("opens once and for good"), HasSubstr("job replace thermostat --new NAME")));
  const std::string unproved = run({"verify", "--width", "200"}).out;
  EXPECT_THAT(unproved, AllOf(HasSubstr("never bridge it"), Not(HasSubstr("--mended"))));
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), Not(HasSubstr("--mended")));
  EXPECT_THAT(refused({"verify", "--forced-defrost", "no-heat", "--live-agreed"}), HasSubstr("no forced defrost"));
  run({"read", "thermostat-alone=0.1"});
  EXPECT_THAT(run({"verify", "--width", "200"}).out, Not(HasSubstr("may be a bridge")))
      << "its contact says nothing of it";
  EXPECT_THAT(run({"read", "thermostat", "link=0.1ohm", "--lead-off"}).out, HasSubstr("may be a bridge"));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr("may be a bridge"));
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), HasSubstr("may be a bridge"));
}

/// A welded thermostat, and one that was only called mended: nothing ends the heat of a forced defrost, by whatever
/// name it is made.
TEST_F(JobCall, HeatsNothingWhileWhatLimitsTheHeatIsNotProved) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--zone", "coil=21C"});
  done({"sign", "--symptom", "frost-whole-coil"});
  EXPECT_EQ(run({"read", "thermostat-alone=0.1", "thermostat-alone=0.1"}).exit_code, 1);
  const std::vector<std::string> in_one{"read", "volts-heater@forced-defrost=119V", "--live-agreed"};
  const std::vector<std::string> verified{"verify", "--forced-defrost", "did-not-end", "--live-agreed"};
  EXPECT_THAT(refused(verified), HasSubstr("what limits its heat is not proved"));
  EXPECT_THAT(refused(in_one), AllOf(HasSubstr("volts-heater@forced-defrost"), HasSubstr("out of its limits")));
  const std::string next = run({"next", "--allow-live", "--width", "200"}).out;
  EXPECT_THAT(next, AllOf(HasSubstr("No forced defrost before"), Not(HasSubstr("@forced-defrost"))));
  EXPECT_THAT(run({"find", "--allow-live"}).out, HasSubstr("No forced defrost before"));
  done({"replace", "thermostat", "--mended", "cleaned"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused(verified), HasSubstr("nothing was read since that shows it good"));
  EXPECT_THAT(refused(in_one), HasSubstr("nothing was read since that shows it good"));
  done({"replace", "thermostat", "--new", "opens-13"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  const std::string unread = "limits the heat, and nothing read since it went in shows that it would";
  EXPECT_THAT(refused(verified), HasSubstr(unread));
  EXPECT_THAT(run({"verify", "--width", "200"}).out, HasSubstr("job read thermostat-alone=VALUE"));
  run({"read", "thermostat", "0.1", "--lead-off", "--at", "-18C"});
  EXPECT_THAT(refused(verified), HasSubstr(unread)) << "closed in the cold is what a welded one is, too";
  EXPECT_EQ(run({"read", "thermostat", "OL", "--range", "20M", "--lead-off", "--at", "21C"}).exit_code, 3);
  EXPECT_NE(run(in_one).exit_code, 2);
  EXPECT_NE(run(verified).exit_code, 2);
}

/// Whoever took back the slip may go on; a crimp of a link that is closed is mended as any joint.
TEST_F(JobCall, AJointOfAClosedLinkIsMendedAndASlipIsTakenBack) {
  done({"open", "a", "--appliance", "upright-thermistor-230v"});
  EXPECT_EQ(run({"read", "link-alone=OL on 20M"}).exit_code, 1);
  done({"correct", "last", "--because", "a probe had slipped off"});
  EXPECT_EQ(run({"read", "link-alone=8"}).exit_code, 3);
  EXPECT_THAT(done({"replace", "link", "--mended", "crimped anew"}), HasSubstr("mended in place"));
}

/// A fan ends no defrost: what heated without end is tried again before it is called repaired, or left plugged in.
TEST_F(JobCall, AForcedDefrostThatDidNotEndIsNotForgottenWhenAnotherPartGoesIn) {
  done({"open", "a", "--appliance", "upright-thermistor-230v", "--zone", "coil=-18C"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  EXPECT_EQ(run({"verify", "--forced-defrost", "did-not-end", "--live-agreed"}).exit_code, 1);
  done({"replace", "fan", "--new", "shaded-pole-230v"});
  run({"read", "fan", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"verify", "--width", "200"}).out, HasSubstr("none has ended by itself since"));
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), HasSubstr("none has ended by itself since"));
  const nlohmann::json json = report();
  EXPECT_THAT(json["customer"]["proof"].dump(), HasSubstr("none has ended by itself since"));
  EXPECT_THAT(json["customer"]["warning"].dump(), HasSubstr("it heated, and did not stop by itself"));
  EXPECT_EQ(run({"verify", "--forced-defrost", "ended", "--live-agreed"}).exit_code, 3) << "the log is open";
  EXPECT_THAT(done({"close", "repaired"}), Not(HasSubstr("Not plugged in before")));
}

/// A repair of which nothing is left when the only part that went in is taken back.
TEST_F(JobCall, OpensAgainWhenTheOnlyRepairIsTakenBack) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "fan", "--new", "unknown", "--because", "its plate is gone"});
  run({"read", "fan", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  done({"note", "a word"});
  done({"close", "repaired"});
  EXPECT_THAT(done({"correct", id_of_last("note"), "--job", "1"}), Not(HasSubstr("open again")));
  EXPECT_EQ(report()["state"], "repaired");
  EXPECT_THAT(done({"correct", id_of_last("replaced"), "--job", "1"}), HasSubstr("open again"));
  EXPECT_EQ(report()["state"], "open");
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("say with --because what was repaired"));
}

/// What was closed by a word why stays closed by it.
TEST_F(JobCall, StaysClosedByTheWordWhyWhateverElseIsTakenBack) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"note", "a word"});
  done({"close", "repaired", "--because", "the gasket was turned"});
  EXPECT_THAT(done({"correct", id_of_last("note"), "--job", "1"}), Not(HasSubstr("open again")));
  EXPECT_THAT(done({"correct", id_of_last("state"), "--job", "1"}), Not(HasSubstr("open again")))
      << "it is its closing that was taken back";
  EXPECT_EQ(report()["state"], "open");
}

/// The sheet that the customer signs tells what was wrong once, however often it was read.
TEST_F(JobCall, TellsTheCustomerOnceWhatWasReadAgain) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL on 20M", "heater-alone=OL on 20M", "heater-alone=OL on 20M"});
  EXPECT_EQ(report()["customer"]["what_was_wrong"].size(), 1U) << report()["customer"]["what_was_wrong"];
}

/// The heater was named, and the fan was replaced.
TEST_F(JobCall, ClosesNoRepairWhoseNamedPartWasLeftAsItIs) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--zone", "coil=-18C"});
  run({"read", "harness=OL on 20M", "harness=OL on 20M", "thermostat-alone=0.1", "splice-alone=0.1", "splice-alone=0.1",
       "heater-lead-alone=0.1", "heater-lead-alone=0.1", "defrost-to-neutral=OL on 20M"});
  run({"read", "fan", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}),
              AllOf(HasSubstr("Defrost heater is at fault"), Not(HasSubstr("--because TEXT"))));
  done({"replace", "fan", "--new", "shaded-pole-120v"});
  run({"read", "fan", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("Defrost heater is at fault"), HasSubstr("job replace heater --new NAME"),
                    HasSubstr("--because TEXT")));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("not read as the old one was, at defrost-to-neutral"));
  run({"read", "heater-alone=32"});
  done({"close", "repaired"});
}

/// What an earlier visit repaired and proved is not what this one did.
TEST_F(JobCall, ASecondVisitIsClosedByWhatWasDoneOnIt) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  done({"close", "repaired"});
  done({"visit", "--job", "1"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("say with --because what was repaired"));
  run({"read", "splice-alone=0.1"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "pushed the plug in"}),
              AllOf(HasSubstr("opened on this visit"), HasSubstr("earth bond was not read")));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  done({"close", "repaired", "--because", "pushed the plug in"});
}

/// A repair whose proof is taken back is none.
TEST_F(JobCall, OpensAgainWhenItsProofIsTakenBack) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  done({"close", "repaired"});
  done({"export", "--out", folder_ + "/book.jsonl"});
  std::ifstream book(folder_ + "/book.jsonl");
  std::string bond;
  for (std::string line; std::getline(book, line);)
    if (const auto entry = nlohmann::json::parse(line); entry["form"] == "checked") bond = entry["id"];
  EXPECT_THAT(done({"correct", bond, "--job", "1", "--because", "another appliance's"}), HasSubstr("open again"));
  EXPECT_EQ(report()["state"], "open");
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("The earth bond was not read"));
}

/// Words that would make a proof of what is none.
TEST_F(JobCall, TakesNoOptionThatMakesAProofEasier) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "heater", "100", "--lead-off", "--confidence", "0.6"}),
              HasSubstr("in a job a verdict is proof"));
  EXPECT_THAT(refused({"verify", "--earth-bond", "none"}),
              AllOf(HasSubstr("has a protective earth"), HasSubstr("--because TEXT")));
  EXPECT_THAT(run({"verify", "--earth-bond", "none", "--because", "its plate shows class II"}).out,
              HasSubstr("its plate shows class II"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  EXPECT_THAT(refused({"read", "heater", "294", "--lead-off", "--ratings", "heater-180w-230v"}),
              HasSubstr("was replaced by \"heater-450w-120v\""));
}

TEST_F(JobCall, TellsAtCloseWhatIsStillToBePluggedInNoMore) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-to-frame=0.1M"});
  EXPECT_THAT(done({"close", "declined"}),
              AllOf(HasSubstr("Not plugged in before"), HasSubstr("leaks to earth"), Not(HasSubstr("Still unproved"))));
}

/// The plugs of the shipped appliances by which a part is named: the new one is read there, too.
TEST_F(JobCall, AsksForTheNewPartWhereThePlugNamedTheOldOne) {
  struct Plug {
    const char* appliance;
    const char* place;
    const char* part;
  };
  const std::vector<Plug> plugs{{"front-loader-230v", "lock-plug", "lock"},
                                {"front-loader-230v", "sensor-plug", "sensor"},
                                {"front-loader-230v", "heater-plug", "heater"},
                                {"front-loader-230v", "drain-plug", "drain-pump"},
                                {"front-loader-230v", "inlet-plug", "inlet"},
                                {"built-in-oven-230v", "ring-plug", "ring"},
                                {"built-in-oven-230v", "sensor-plug", "sensor"},
                                {"bottom-freezer-thermistor-230v", "sensor-plug", "sensor"},
                                {"combination-two-evaporators-230v", "freezer-sensor-plug", "freezer-sensor"},
                                {"drum-dryer-230v", "motor-wire", "motor"},
                                {"upright-thermistor-230v", "fan-plug", "fan"}};
  for (const Plug& plug : plugs) {
    done({"open", "a", "--appliance", plug.appliance, "--answer", "tingles=no"});
    run({"read", std::string(plug.place) + "=OL"});
    done({"replace", plug.part, "--new", "unknown", "--because", "a test"});
    const std::string asked = "the new one was not read as the old one was";
    EXPECT_THAT(report()["unproved"].dump(), AllOf(HasSubstr(asked), HasSubstr(plug.place)))
        << plug.appliance << ' ' << plug.part;
    run({"read", std::string(plug.place) + "=OL"});
    EXPECT_THAT(report()["unproved"].dump(), Not(HasSubstr(asked))) << "it was read, and is as dead";
    done({"close", "declined"});
  }
}

TEST_F(JobCall, TakesAGoodReadingThroughAMendedConnectorForItsProof) {
  done({"open", "a", "--appliance", "bottom-freezer-thermistor-230v", "--answer", "tingles=no"});
  done({"sign", "--zone", "coil=-18C"});
  run({"read", "sensor-plug=OL"});
  run({"read", "sensor-alone=47.3k"});
  done({"replace", "sensor-connector", "--mended", "cleaned and pushed on"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("read it at sensor-plug"));
  run({"read", "sensor-plug=OL"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("read it at sensor-plug")) << "as dead as before";
  done({"sign", "--zone", "coil=-18C"});
  run({"read", "sensor-plug=47.4k"});
  EXPECT_EQ(run({"close", "repaired"}).exit_code, 0);
}

TEST_F(JobCall, AsksWhatOverheatedALinkUntilWhatMayHaveIsFound) {
  done({"open", "a", "--appliance", "vented-dryer-230v", "--answer", "tingles=no"});
  run({"read", "link-alone=OL on 20k", "link-alone=OL on 20k"});
  done({"replace", "link", "--new", "unknown", "--because", "a test"});
  run({"read", "link-alone=0.1"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  done({"sign", "--looked", "outlet-dead=found"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("what overheated the old one"));
  done({"sign", "--looked", "vent-blocked=found"});
  done({"close", "repaired"});
}

TEST_F(JobCall, AsksWhatTrippedALimitThatWasPressedIn) {
  done({"open", "a", "--appliance", "built-in-oven-230v", "--answer", "tingles=no"});
  run({"read", "limit-alone=OL", "--at", "21C"});
  done({"replace", "limit", "--mended", "button pressed in"});
  run({"read", "limit-alone=0.1"});
  run({"read", "ring", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("had tripped, and nothing says what overheated it"));
  done({"close", "repaired", "--because", "the cooling air was blocked by a towel"});
}

/// Each of what stands against it has a line of its own, and what was possible before a repair is not called possible
/// now.
TEST_F(JobCall, RefusesToCloseInAListAndReportsWhatWasPossible) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  EXPECT_THAT(done({"report"}), HasSubstr("Possible faults now"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  const Ran ran = run({"close", "repaired"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, AllOf(HasSubstr("is not closed as repaired:\n  - Defrost heater was replaced"),
                             HasSubstr("\n  - The earth bond"), HasSubstr("\n  See: ohmwright job verify")));
  EXPECT_THAT(done({"report"}), AllOf(Not(HasSubstr("Possible faults now")),
                                      HasSubstr("Possible faults by what was read before the repair")));
}

}  // namespace
}  // namespace ohmwright
