// What a job does not let pass while something of the appliance is dangerous, or not proved.

#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job_call.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;
using testing::Ran;

/// A log over days is an appliance that runs: a job that waits for one waits no more once it is dangerous.
TEST_F(JobCall, WaitsForNoLogOfWhatBecameUnsafe) {
  std::vector<std::string> open{"open", "a", "--appliance", "upright-timer-bimetal-120v", "--zone", "coil=21C"};
  for (const char* answer : {"tingles=no", "burning_smell=no", "refrigerant=R-134a", "frost=whole", "volts=118",
                             "room=24C", "tried=nothing"}) {
    open.emplace_back("--answer");
    open.emplace_back(answer);
  }
  done(open);
  done({"wait", "log"});
  EXPECT_EQ(report()["state"], "waiting-for-log");
  run({"verify", "--forced-defrost", "did-not-end", "--live-agreed"});
  EXPECT_THAT(run({"list"}).out, Not(HasSubstr("waiting for a log")));
  EXPECT_THAT(run({"list", "--in-state", "open"}).out, Not(HasSubstr("No such job")));
  EXPECT_THAT(run({"list", "--in-state", "waiting-for-log"}).out, HasSubstr("No such job"));
  EXPECT_EQ(report()["state"], "open");
  EXPECT_THAT(refused({"wait", "log"}), HasSubstr("Leave it unplugged"));
  const Ran talk = run({}, "1\n1\n0\n");
  EXPECT_THAT(talk.out, AllOf(HasSubstr("unplug it now"), Not(HasSubstr("is waiting for a log"))));
  done({"correct", id_of_last("checked")});
  EXPECT_EQ(report()["state"], "waiting-for-log") << "a slip that is taken back leaves it as it was";
}

/// An OL at a temperature that nobody knows is what a lost lead reads, too.
TEST_F(JobCall, TakesAThermostatForOpenWhereItIsWarmByNoLooseOL) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "thermostat", "--new", "opens-13"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  const std::vector<std::string> forced{"verify", "--forced-defrost", "ended", "--live-agreed"};
  run({"read", "thermostat-alone=OL"});
  run({"read", "thermostat-alone=OL"});
  EXPECT_THAT(refused(forced), HasSubstr("surely warmer")) << "nobody knows how warm it was";
  run({"read", "thermostat", "OL", "--range", "20M", "--lead-off", "--at", "0C ± 35K"});
  run({"read", "thermostat", "OL", "--range", "20M", "--lead-off", "--at", "0C ± 35K"});
  EXPECT_THAT(refused(forced), HasSubstr("surely warmer"));
  done({"sign", "--zone", "coil=24C"});
  run({"read", "thermostat-alone=OL"});
  EXPECT_THAT(refused(forced), HasSubstr("surely warmer")) << "once, and the probes may have slipped";
  run({"read", "thermostat-alone=OL"});
  EXPECT_NE(run(forced).exit_code, 2);
}

/// A forced defrost that failed is a sign like any other, and the conversation goes on searching by it.
TEST_F(JobCall, WeighsAForcedDefrostThatFailed) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--zone", "coil=-18C"});
  run({"verify", "--forced-defrost", "did-not-end", "--live-agreed"});
  const std::string endless = run({"find"}).out;
  EXPECT_THAT(endless, HasSubstr("A defrost goes on too long"));
  EXPECT_LT(endless.find("hermostat"), endless.find("blocked by ice"));
  done({"correct", "last"});
  run({"verify", "--forced-defrost", "no-heat", "--live-agreed"});
  EXPECT_THAT(run({"find"}).out, HasSubstr("It does not heat"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"find"}).out, Not(HasSubstr("It does not heat"))) << "that was with the old heater";
}

/// What overheated a link opens the next one, too.
TEST_F(JobCall, AsksWhatOverheatedALinkBeforeItIsCalledRepaired) {
  done({"open", "a", "--appliance", "upright-thermistor-230v"});
  run({"read", "link-alone=OL on 20M"});
  EXPECT_THAT(done({"replace", "link", "--new", "tf-72"}), HasSubstr("What overheated the old one?"));
  run({"read", "link-alone=0.1"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"verify", "--width", "300"}).out, HasSubstr("what overheated the old one"));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("--looked CAUSE=found"));
  done({"sign", "--looked", "door-gasket=fine"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("what overheated the old one"));
  EXPECT_EQ(run({"close", "repaired", "--because", "the relay was welded, board replaced last week"}).exit_code, 0);
}

/// The same of a link behind the two wires of a thermostat, of which nobody can tell from outside.
TEST_F(JobCall, AsksWhatOverheatedAPair) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "thermostat", "--new", "opens-13-pair", "--because", "what is in it"});
  done({"sign", "--zone", "coil=-23C"});
  EXPECT_EQ(run({"read", "thermostat-alone=OL"}).exit_code, 1);
  done({"replace", "thermostat", "--new", "opens-13-pair", "--because", "the same"});
  EXPECT_THAT(run({"verify", "--width", "300"}).out, HasSubstr("what overheated the old one"));
}

/// A clock that is fast, or another file: what the log shows is not what was repaired.
TEST_F(JobCall, TakesNoLogOfTheFutureForAProof) {
  done({"open", "a"});
  const std::string file = folder_ + "/future.csv";
  std::ofstream log(file);
  log << "time,temperature\n";
  for (int day = 1; day <= 4; ++day)
    for (int hour = 0; hour < 24; ++hour)
      log << "2099-01-0" << day << "T" << (hour < 10 ? "0" : "") << hour << ":00:00,-18\n";
  log.close();
  const Ran verified = run({"verify", "--log", file});
  EXPECT_THAT(verified.out, HasSubstr("ends later than now")) << verified.err;
}

/// What may mislead in a reading is told with it, not on another page alone.
TEST_F(JobCall, TellsWhatToMindWithTheReading) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil"});
  EXPECT_THAT(run({"read", "harness=8032"}).out, HasSubstr("\nMind\n"));
  EXPECT_THAT(run({"next"}).out, HasSubstr("\nMind\n"));
}

/// A part that was judged as a kind is read again as it was: PART VALUE.
TEST_F(JobCall, PrintsACommandThatIsTaken) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "fan-motor", "OL", "--ratings", "shaded-pole-120v", "--lead-off", "--proved-dead"});
  EXPECT_THAT(run({"verify", "--width", "300"}).out, Not(HasSubstr("fan-motor=VALUE")));
}

/// A leak of a gas that burns: the card in the hand says so, and no volts of a tester go in.
TEST_F(JobCall, StopsAtTheSealedSystemBeforeAnyTest) {
  done({"open",     "Oil at joint",      "--appliance", "upright-thermistor-230v",
        "--answer", "refrigerant=R-290", "--answer",    "tingles=yes",
        "--answer", "burning_smell=no",  "--answer",    "frost=none",
        "--answer", "volts=230",         "--answer",    "room=24C",
        "--answer", "tried=nothing",     "--symptom",   "oil-stain"});
  const Ran card = run({"card"});
  EXPECT_EQ(card.exit_code, 3);
  EXPECT_THAT(card.out, AllOf(HasSubstr("STOP: this speaks of the sealed"), HasSubstr("ventilate"),
                              HasSubstr("It tingles"), Not(HasSubstr("No step is left"))));
  EXPECT_THAT(run({"why"}).out, AllOf(HasSubstr("STOP"), Not(HasSubstr("Possible faults"))));
  EXPECT_THAT(run({"verify", "--width", "300"}).out,
              AllOf(HasSubstr("STOP"), HasSubstr("ventilate"), Not(HasSubstr("--test 500V")),
                    Not(HasSubstr("--forced-defrost"))));
  EXPECT_THAT(run({"next"}).out, Not(HasSubstr("--test")));
  const std::string talk = run({}, "1\n1\n0\n").out;
  EXPECT_THAT(talk, AllOf(HasSubstr("It speaks of the sealed system"), HasSubstr("ventilate"),
                          Not(HasSubstr("read at 500 V"))));
}

TEST_F(JobCall, WarnsTheCustomerOfALeakThatMayBurn) {
  done({"open", "Oil at joint", "--appliance", "upright-thermistor-230v", "--answer", "refrigerant=R-600a", "--symptom",
        "frost-first-turns"});
  done({"close", "stopped"});
  const nlohmann::json told = report();
  EXPECT_THAT(told["customer"]["warning"].get<std::string>(), AllOf(HasSubstr("burns"), HasSubstr("at the breaker")));
  EXPECT_THAT(told["customer"]["what_to_watch"].dump(), AllOf(HasSubstr("licensed"), Not(HasSubstr("pull the plug"))));
  EXPECT_THAT(told["customer"]["what_was_wrong"].dump(), Not(HasSubstr("STOP")));
  EXPECT_THAT(told["cautions"].dump(), HasSubstr("flammable-refrigerant"));
}

/// What 500 V destroy is off before they go in, not once the value is typed.
TEST_F(JobCall, TellsWhatToUnplugBeforeATestWith500Volts) {
  std::vector<std::string> open{"open", "a", "--appliance", "upright-thermistor-230v", "--symptom", "warm-cabinet"};
  for (const char* answer : {"tingles=yes", "burning_smell=no", "refrigerant=R-134a", "frost=none", "volts=230",
                             "room=24C", "tried=nothing"}) {
    open.emplace_back("--answer");
    open.emplace_back(answer);
  }
  done(open);
  const std::string talk = run({}, "1\n1\n0\n").out;
  const std::size_t caution = talk.find("Before a 500 V test unplug boards");
  ASSERT_NE(caution, std::string::npos) << talk;
  EXPECT_LT(caution, talk.find("read at 500 V"));
}

/// What somebody fitted earlier is no measure of what fits.
TEST_F(JobCall, ComparesWithWhatTheApplianceWasMadeForWhateverCameOut) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"replace", "heater", "--old", "heater-5200w-240v", "--new", "heater-5200w-240v"}),
              HasSubstr("no equivalent"));
  done({"replace", "heater", "--old", "heater-5200w-240v", "--new", "heater-450w-120v", "--because", "its plate"});
  EXPECT_THAT(report()["replaced"].dump(), HasSubstr("5200"));
}

/// A leak is a leak, by whichever words it was typed.
TEST_F(JobCall, WeighsAnInsulationThatWasReadOfAPart) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "insulation=0.3M", "--test", "500V", "--proved-dead", "--lead-off"});
  const std::string leaks = run({"find"}).out;
  EXPECT_THAT(leaks, AllOf(HasSubstr("Heater to its frame"), HasSubstr("leak")));
  const std::size_t possible = leaks.find("Possible faults");
  EXPECT_LT(leaks.find("Defrost heater", possible), leaks.find("Evaporator fan", possible));
  const std::string known = "Heater to its frame, both leads off: ";
  EXPECT_THAT(leaks, HasSubstr(known));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"find"}).out, HasSubstr(known)) << "nobody mended what leaked";
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off", "--wet"});
  EXPECT_THAT(run({"find"}).out, Not(HasSubstr(known))) << "wetted it insulates";
  for (int i = 0; i < 3; ++i) done({"correct", "last"});
  run({"read", "heater", "insulation=0.3M", "--test", "500V", "--proved-dead", "--lead-off", "--wet"});
  EXPECT_THAT(run({"find"}).out, Not(HasSubstr(known))) << "water is no fault of the heater";
}

/// What the customer said is a sign as if it was seen, until somebody stands before it.
TEST_F(JobCall, WeighsWhatWasSaidOnThePhone) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--answer", "tingles=yes", "--answer",
        "burning_smell=yes", "--answer", "frost=whole"});
  const std::string found = run({"find", "--width", "300"}).out;
  EXPECT_THAT(found, AllOf(HasSubstr("The cabinet tingles to the touch"), HasSubstr("smells burnt"),
                           HasSubstr("The whole coil is thick with frost")));
  EXPECT_THAT(run({"next", "--width", "300"}).out, AllOf(HasSubstr("Before all else read the insulation"),
                                                         HasSubstr("--test 500V"), HasSubstr("--earth-bond 0.12ohm")));
  done({"sign", "--no-symptom", "frost-whole-coil"});
  EXPECT_THAT(run({"find", "--width", "300"}).out, Not(HasSubstr("- The whole coil is thick with frost")));
}

/// With an end off nothing lies beside it.
TEST_F(JobCall, NamesNoWayBesideAPartThatIsReadAlone) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil", "--answer",
        "room=22C"});
  run({"read", "splice-alone=6.2"});
  EXPECT_THAT(run({"find"}).out, Not(HasSubstr("goes through")));
}

/// A digit that was meant for another question, and what no label names.
TEST_F(JobCall, RefusesWhatNoOutletRoomOrLabelHas) {
  EXPECT_THAT(refused({"open", "a", "--answer", "volts=2"}), HasSubstr("from 80 to 500 V"));
  EXPECT_THAT(refused({"open", "a", "--answer", "volts=23000"}), HasSubstr("from 80 to 500 V"));
  EXPECT_THAT(refused({"open", "a", "--answer", "room=500C"}), HasSubstr("from -40 to 60 degC"));
  EXPECT_THAT(refused({"open", "a", "--answer", "refrigerant=beer"}), HasSubstr("what the label names"));
  EXPECT_THAT(refused({"open", " "}), HasSubstr("is empty"));
  done({"open", "a", "--answer", "refrigerant=R-441A", "--answer", "volts=118"});
  done({"open", "b", "--answer", "refrigerant=isobutane"});
}

/// Two temperatures of one zone in one call are a slip: nobody knows which is meant.
TEST_F(JobCall, RefusesAZoneThatIsStatedTwice) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"sign", "--zone", "coil=20C", "--zone", "coil=-18C"}), HasSubstr("twice"));
  done({"sign", "--zone", "coil=20C", "--zone", "coil=20C"});
}

}  // namespace
}  // namespace ohmwright
