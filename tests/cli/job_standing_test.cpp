// What stands in a call until something shows that it is no longer so: a condemned part, a leak, a stop.

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "job_call.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;

constexpr const char* timer_120v = "upright-timer-bimetal-120v";

TEST_F(JobCall, PutsNoReportInThePlaceOfItsBook) {
  done({"open", "a"});
  EXPECT_THAT(refused({"report", "--out", folder_ + "/ohmwright/jobs.db"}), HasSubstr("a database is there"));
  EXPECT_THAT(refused({"export", "--out", folder_ + "/ohmwright/jobs.db"}), HasSubstr("a database is there"));
  EXPECT_THAT(run({"list"}).out, HasSubstr("a")) << "the book is as it was";
}

/// What decides nothing, in circuit, takes no finding against a part away.
TEST_F(JobCall, HeatsNothingAfterAVagueReadingOfAWeldedThermostat) {
  done({"open", "a", "--appliance", timer_120v});
  EXPECT_EQ(run({"read", "thermostat", "closed", "--at", "24C", "--lead-off"}).exit_code, 1);
  EXPECT_EQ(run({"read", "thermostat", "closed", "--in-circuit"}).exit_code, 3);
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr("what limits its heat"));
  EXPECT_THAT(refused({"wait", "log"}), HasSubstr("what limits its heat is not proved"));
  EXPECT_THAT(done({"close", "declined"}), HasSubstr("Not plugged in before"));
  EXPECT_THAT(run({"report"}).out, HasSubstr("Leave it unplugged: what should end the heat"));
}

/// In a log of days it heats by itself, with nobody beside it.
TEST_F(JobCall, LeavesNoNewLimitUnreadForDays) {
  done({"open", "a", "--appliance", timer_120v});
  done({"replace", "thermostat", "--new", "opens-13", "--because", "its clip is broken"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"wait", "log"}), AllOf(HasSubstr("what limits its heat"), HasSubstr("Defrost thermostat")));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("Defrost thermostat limits the heat"));
  EXPECT_THAT(done({"close", "repaired", "--because", "it is to be seen on Monday"}),
              HasSubstr("Defrost thermostat limits the heat"));
}

/// A suspected leak of refrigerant stops what is done, whatever else is repaired, until it was seen to.
TEST_F(JobCall, StopsAtASuspectedLeakOfRefrigerantUntilItWasSeenTo) {
  done({"open", "a", "--appliance", timer_120v, "--answer", "refrigerant=R-600a", "--symptom", "oil-stain"});
  const std::string stop = "speaks of the sealed refrigerant system";
  const auto stops_all = [&] {
    EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr(stop));
    EXPECT_THAT(refused({"wait", "log"}), HasSubstr(stop));
    EXPECT_THAT(refused({"read", "volts-defrost=120V", "--live-agreed"}), HasSubstr(stop));
    EXPECT_THAT(refused({"close", "repaired", "--because", "charged"}), HasSubstr(stop));
    EXPECT_THAT(run({"report", "--width", "300"}).out, HasSubstr("it may leak a gas that burns"));
  };
  stops_all();
  done({"replace", "fan", "--mended", "cleaned"});
  stops_all();
  EXPECT_THAT(run({"next"}).out, AllOf(HasSubstr("STOP"), Not(HasSubstr("prove the repair"))));
  done({"sign", "--no-symptom", "oil-stain"});
  EXPECT_THAT(run({"next"}).out, HasSubstr("prove the repair"));
  EXPECT_THAT(run({"report", "--width", "300"}).out, Not(HasSubstr("gas that burns")));
  EXPECT_THAT(refused({"sign", "--symptom", "noise", "--no-symptom", "noise"}), HasSubstr("leave one out"));
}

TEST_F(JobCall, TalksNoOpenEarthLeadAway) {
  done({"open", "a", "--appliance", timer_120v});
  EXPECT_EQ(run({"verify", "--earth-bond", "OL"}).exit_code, 1);
  EXPECT_THAT(refused({"verify", "--earth-bond", "none", "--because", "no lead seen"}),
              AllOf(HasSubstr("its earth bond was read, and is not within limits"), HasSubstr("job correct")));
  done({"correct", "last"});
  EXPECT_EQ(run({"verify", "--earth-bond", "none", "--because", "its plate shows class II"}).exit_code, 3);
  EXPECT_THAT(run({"report"}).out, HasSubstr("Nothing is proved yet")) << "that there is none proves nothing";
}

/// What a new part read that went out again proves nothing of the one in its place.
TEST_F(JobCall, ProvesNothingByAPartThatIsOutAgain) {
  done({"open", "a", "--appliance", timer_120v});
  run({"read", "heater-alone=OL"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "31.9", "--lead-off", "--at", "20C"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  EXPECT_THAT(run({"report"}).out, HasSubstr("now reads 31.90"));
  done({"replace", "heater", "--new", "heater-450w-120v", "--because", "its lead broke"});
  const std::string page = run({"report"}).out;
  const std::string proof = page.substr(page.find("\nProof"), page.find("\nWhat to watch") - page.find("\nProof"));
  EXPECT_THAT(proof, AllOf(Not(HasSubstr("31.90")), Not(HasSubstr("200.0"))));
}

TEST_F(JobCall, WeighsTestPointsByOneMeter) {
  done({"open", "a", "--appliance", timer_120v});
  EXPECT_THAT(refused({"read", "heater-alone=32", "--meter", "basic"}), HasSubstr("job sign --meter"));
}

/// Wet now and dry an hour later is how it is read in a call: what leaked wet is held back, as it is in one command.
TEST_F(JobCall, HoldsBackWhatLeakedWetAndInsulatesDried) {
  done({"open", "a", "--appliance", "upright-shared-neutral-230v", "--answer", "tingles=yes"});
  run({"read", "heater", "insulation=0.04M", "--test", "500V", "--proved-dead", "--lead-off", "--wet"});
  EXPECT_THAT(run({"read", "heater", "insulation=300M", "--test", "500V", "--proved-dead", "--lead-off", "--dry"}).out,
              HasSubstr("Dried it insulates, but wet it had only 40 kΩ"));
  run({"verify", "--earth-bond", "0.1ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "dried it out"}), HasSubstr("comes back with the water"));
  EXPECT_EQ(report()["readings"][1]["shown"], "insulation=300M --test 500V --proved-dead --lead-off --dry");
  done({"replace", "heater", "--new", "heater-180w-230v"});
  EXPECT_THAT(run({"read", "heater", "insulation=300M", "--test", "500V", "--proved-dead", "--lead-off"}).out,
              Not(HasSubstr("wet it had only")))
      << "it was the old one that leaked";
}

TEST_F(JobCall, TellsTheCustomerThatALeakWhichDriedMayComeBack) {
  done({"open", "a", "--appliance", timer_120v});
  run({"read", "heater-to-frame=40k"});
  run({"read", "heater-to-frame=OL on 60M"});
  EXPECT_THAT(run({"report", "--width", "300"}).out, HasSubstr("what water did comes back"));
}

TEST_F(JobCall, JudgesASensorWetAgainstDryOverTwoReadings) {
  done({"open", "a", "--appliance", "upright-thermistor-230v"});
  EXPECT_EQ(run({"read", "sensor", "9.2k", "--lead-off", "--wet", "--at", "20C"}).exit_code, 3);
  const testing::Ran dry = run({"read", "sensor", "12.4k", "--lead-off", "--dry", "--at", "20C"});
  EXPECT_EQ(dry.exit_code, 1);
  EXPECT_THAT(dry.out, HasSubstr("Wet against dry"));
}

/// Days lie between two visits: it was closed, plugged in and used.
TEST_F(JobCall, UnplugsItAgainOnAnotherVisit) {
  done({"open", "a", "--appliance", timer_120v, "--symptom", "frost-whole-coil"});
  run({"read", "heater-alone=OL"});
  EXPECT_THAT(run({"card"}).out, Not(HasSubstr("Unplug, prove dead")));
  done({"wait", "part"});
  done({"visit"});
  EXPECT_THAT(run({"card"}).out, HasSubstr("Unplug, prove dead"));
}

/// After a repair that was closed another complaint is looked at, and searched for, in the conversation, too.
TEST_F(JobCall, SearchesOnACallBackInTheConversation) {
  done({"open",        "a",
        "--appliance", timer_120v,
        "--symptom",   "frost-whole-coil",
        "--answer",    "tingles=no",
        "--answer",    "burning_smell=no",
        "--answer",    "refrigerant=R-134a",
        "--answer",    "frost=whole",
        "--answer",    "volts=120",
        "--answer",    "room=24C",
        "--answer",    "tried=nothing"});
  run({"read", "heater-alone=OL"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  run({"read", "heater-alone=32.1"});
  EXPECT_THAT(run({}, "1\n1\n1\n").out, Not(HasSubstr("Do next")));
  done({"close", "repaired"});
  done({"visit", "--job", "1"});
  EXPECT_THAT(run({}, "1\n1\n0\n").out, AllOf(HasSubstr("What do you see"), HasSubstr("Do next")));
}

}  // namespace
}  // namespace ohmwright
