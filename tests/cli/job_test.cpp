// One service call through the program: the book, the rules of closing, what merges, and what people may type.

#include <algorithm>
#include <array>
#include <atomic>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/verdict/caution.hpp>

#include "../unit/instrument/simulated_instrument.hpp"
#include "job_call.hpp"
#include "made_logs.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;
using testing::Ran;
using testing::run_program;
using ::testing::StartsWith;

TEST_F(JobCall, GoesFromComplaintToRecord) {
  done({"open", "Freezer warm", "--complaint", "milk is warm", "--appliance", "upright-timer-bimetal-120v", "--symptom",
        "frost-whole-coil", "--answer", "tingles=no", "--answer", "room=24C"});
  EXPECT_THAT(run({"next"}).out, AllOf(HasSubstr("Before you touch it"), HasSubstr("ohmwright job sign --looked ")));
  EXPECT_THAT(run({"card"}).out, HasSubstr("type: "));
  EXPECT_THAT(run({"why"}).out, HasSubstr("what is in doubt"));
  EXPECT_THAT(refused({"close", "repaired"}),
              HasSubstr("has no part replaced or mended in place; say with --because what was repaired"));
  const Ran bad = run({"read", "heater-alone=OL"});
  EXPECT_EQ(bad.exit_code, 1) << bad.err;
  EXPECT_THAT(bad.out, AllOf(HasSubstr("OUT OF SPEC"), HasSubstr("Possible faults now")));
  EXPECT_THAT(run({"find"}).out, HasSubstr("Defrost heater"));
  done({"replace", "heater", "--new", "heater-450w-120v"});
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("Defrost heater was replaced, and its insulation was not read since"),
                    HasSubstr("earth bond was not read")));
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr("no forced defrost while"));
  EXPECT_EQ(run({"read", "heater", "insulation=>200M", "--test", "500V", "--proved-dead"}).exit_code, 3);
  const Ran by_a_meter = run({"verify", "--earth-bond", "0.12ohm"});
  EXPECT_EQ(by_a_meter.exit_code, 1);
  EXPECT_THAT(by_a_meter.out, AllOf(HasSubstr("which proves nothing"), HasSubstr("The earth bond is not decided")));
  EXPECT_EQ(run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"}).exit_code, 3) << "a log is left";
  EXPECT_EQ(run({"read", "heater-alone=32", "--lead-off"}).exit_code, 0) << "as the test point says itself";
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended"}), HasSubstr("--live-agreed"));
  EXPECT_EQ(run({"verify", "--forced-defrost", "ended", "--live-agreed"}).exit_code, 3) << "a log is left";
  EXPECT_THAT(refused({"close", "repaired", "--call-back", "banana"}), HasSubstr("--call-back takes a day"));
  EXPECT_THAT(refused({"close", "repaired", "--call-back", "1999-12-01"}),
              HasSubstr("--call-back takes a day that is still to come, got \"1999-12-01\"; today is 20"));
  EXPECT_THAT(done({"close", "repaired", "--call-back", "2999-12-01"}), HasSubstr("A log over some days"));
  EXPECT_THAT(run({"show"}).out, HasSubstr("title: Freezer warm; complaint: milk is warm"))
      << "the job written to last, in words";
  EXPECT_THAT(refused({"read", "heater-alone=32", "--job", "1"}), HasSubstr("is closed"));
  EXPECT_THAT(run({"report"}).out, HasSubstr("\nPrice: ______________________________\n\nDate: ___"));
  const nlohmann::json json = report();
  EXPECT_EQ(json["state"], "repaired");
  EXPECT_EQ(json["readings"].size(), 3U);
  EXPECT_EQ(json["readings"][0]["outcome"], "out-of-limits");
  EXPECT_EQ(json["replaced"][0]["equivalence"], "within-limits");
  EXPECT_EQ(json["replaced"][0]["new"], "heater-450w-120v");
  EXPECT_EQ(json["call_back"], "2999-12-01");
  EXPECT_TRUE(json["open_points"].empty());
  EXPECT_EQ(json["unproved"], nlohmann::json::array({"A log over some days."}));
  EXPECT_FALSE(json["cautions"].empty());
  for (const nlohmann::json& caution : json["cautions"]) EXPECT_NE(caution["source"], "") << caution["id"];
  EXPECT_GT(json["possible_before"].size(), 1U);
  EXPECT_THAT(run({"report"}).out, AllOf(HasSubstr("What was wrong"), HasSubstr("Cautions that were shown")));
  EXPECT_THAT(json["customer"]["proof"].dump(), AllOf(HasSubstr("Insulation from the element to the frame > 200"),
                                                      HasSubstr("Defrost heater now reads 32.00 Ω")));
}

/// A connector that was pushed on, a splice crimped anew: nothing is repaired before it reads good, and is safe.
TEST_F(JobCall, AMendInItsPlaceIsProvedAsANewPartIs) {
  done({"open", "No heat", "--appliance", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil"});
  EXPECT_EQ(run({"read", "heater-alone=OL"}).exit_code, 1);
  EXPECT_THAT(refused({"close", "repaired", "--because", "pushed the connector on"}),
              AllOf(HasSubstr("Defrost heater"), HasSubstr("--mended TEXT")));
  EXPECT_THAT(refused({"replace", "heater", "--mended", "x", "--new", "heater-450w-120v"}), HasSubstr("leave one"));
  EXPECT_THAT(done({"replace", "heater", "--mended", "pushed its connector on"}),
              AllOf(HasSubstr("mended in place"), HasSubstr("Unplug it"), HasSubstr("earth bond")));
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("insulation was not read since"), HasSubstr("earth bond was not read"),
                    HasSubstr("nothing was read since that shows it good")));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), HasSubstr("heater-alone=VALUE"));
  EXPECT_EQ(run({"read", "heater-alone=OL"}).exit_code, 1);
  EXPECT_THAT(refused({"close", "repaired", "--because", "sure"}), HasSubstr("out of its limits all the same"));
  EXPECT_EQ(run({"read", "heater-alone=32.1"}).exit_code, 0);
  done({"close", "repaired"});
  const nlohmann::json json = report();
  EXPECT_EQ(json["mended"][0]["done"], "pushed its connector on");
  EXPECT_TRUE(json["replaced"].empty());
  EXPECT_THAT(json["customer"]["what_was_done"].dump(),
              HasSubstr("Defrost heater mended in place: pushed its connector on."));
  EXPECT_THAT(json["customer"]["proof"].dump(), HasSubstr("Defrost heater now reads 32.10 Ω"));
}

/// `--line` is an option of `job verify`, and what a heater is read by.
TEST_F(JobCall, ReadsAPartByConditionsThatAnotherActionCallsAnOption) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const std::vector<std::string> read{"read", "heater", "--current", "3.6A", "--line", "118V", "--live-agreed"};
  const Ran ran = run(read);
  EXPECT_NE(ran.exit_code, 2) << ran.err;
  EXPECT_THAT(report()["readings"][0]["shown"], HasSubstr("--line 118V"));
  EXPECT_THAT(refused({"read", "heater", "32", "--symptom", "no-heat"}), HasSubstr("--symptom"));
}

/// The most dangerous answer that there is.
TEST_F(JobCall, AnOpenEarthLeadIsCondemned) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const Ran open = run({"verify", "--earth-bond", "OL"});
  EXPECT_EQ(open.exit_code, 1) << open.err;
  EXPECT_THAT(open.out, HasSubstr("The earth lead is open"));
  EXPECT_EQ(report()["checks"][0]["outcome"], "out-of-limits");
}

/// What its ratings do not state sets a part not apart from one by the same ratings.
TEST_F(JobCall, APartByTheSameRatingsStandsInForTheOldOne) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(done({"replace", "splice", "--new", "splice"}),
              AllOf(HasSubstr("can stand in for the old one"), HasSubstr("look on both parts")));
  EXPECT_EQ(report()["replaced"][0]["equivalence"], "within-limits");
  EXPECT_EQ(run_program({"compare", "wiring", "splice", "splice"}).exit_code, 0);
  EXPECT_EQ(run_program({"compare", "fan", "shaded-pole-120v", "shaded-pole-120v"}).exit_code, 0);
  EXPECT_EQ(run_program({"compare", "heater", "heater-450w-120v", "heater-180w-230v"}).exit_code, 1);
}

/// What `next` would stop at, `read` stops at once, and nothing live, no forced defrost and no closing goes past it.
TEST_F(JobCall, StopsAtALeakThatWasReadAtATestPoint) {
  for (const std::vector<std::string>& one :
       {std::vector<std::string>{"upright-timer-bimetal-120v", "heater-to-frame", "32"},
        {"drum-dryer-230v", "heater-to-frame", "26.4"}}) {
    done({"open", one[0], "--appliance", one[0]});
    const Ran read = run({"read", one[1] + "=0.1M"});
    EXPECT_EQ(read.exit_code, 1) << read.err;
    EXPECT_THAT(read.out, HasSubstr("STOP, do not energise it"));
    EXPECT_THAT(run({"card"}).out, HasSubstr("STOP: not plugged in before"));
    const Ran verify = run({"verify"});
    EXPECT_EQ(verify.exit_code, 1);
    EXPECT_THAT(verify.out, HasSubstr("leaks to earth"));
    EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}),
                HasSubstr(one[0] == "drum-dryer-230v" ? "no defrost to force" : "no forced defrost while"));
    EXPECT_THAT(refused({"close", "repaired", "--because", "cleaned a contact"}), HasSubstr("leaks to earth"));
    EXPECT_EQ(run({"read", one[1] + "=OL on 60k"}).exit_code, 0);
    EXPECT_THAT(refused({"close", "repaired", "--because", "dried"}), HasSubstr("leaks to earth"))
        << "more than 60 kohm are not yet a megohm";
    EXPECT_EQ(run({"read", one[1] + "=20M"}).exit_code, 0);
    EXPECT_THAT(refused({"close", "repaired", "--because", "dried"}), HasSubstr("no insulation tester"));
    run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
    EXPECT_THAT(refused({"close", "repaired", "--because", "dried"}), HasSubstr("earth bond was not read"));
    run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
    EXPECT_THAT(refused({"close", "repaired", "--because", "dried"}), HasSubstr("comes back with the water"));
    done({"replace", "heater", "--mended", "sealed its ends"});
    run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
    run({"read", "heater", one[2], "--lead-off"});
    run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
    done({"close", "repaired"});
  }
}

TEST_F(JobCall, ReadsNothingLiveWhileItLeaks) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-to-frame=0.1M"});
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost=118V", "--live-agreed"}), HasSubstr("leaks to earth"));
  done({"correct", "last", "--because", "a slip"});
  EXPECT_EQ(run({"read", "volts-heater@forced-defrost=118V", "--live-agreed"}).exit_code, 0);
}

TEST_F(JobCall, TakesNoReadingFromBeforeTheRepairForProof) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "unknown", "--because", "no plate"});
  const Ran early =
      run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--time", "2020-01-01 10:00"});
  EXPECT_THAT(early.out, HasSubstr("was before the job was opened"));
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A", "--time", "2020-01-01 10:00"});
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("its insulation was not read since"), HasSubstr("earth bond was not read since")));
}

/// The same where nothing was replaced, on a second visit: what counts is when it was read.
TEST_F(JobCall, TakesNoReadingFromBeforeTheVisitForProof) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "32", "--lead-off"});
  done({"visit"});
  run({"read", "heater", "32", "--lead-off"});
  const auto prove = [&](const std::vector<std::string>& when) {
    std::vector<std::string> insulation{"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"};
    std::vector<std::string> bond{"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"};
    for (std::vector<std::string>* words : {&insulation, &bond}) {
      words->insert(words->end(), when.begin(), when.end());
      run(*words);
    }
  };
  prove({"--time", "2020-01-01 10:00"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "drain cleaned"}),
              AllOf(HasSubstr("opened on this visit"), HasSubstr("its earth bond was not read")));
  prove({});
  EXPECT_EQ(run({"close", "repaired", "--because", "drain cleaned"}).exit_code, 0);
}

/// Within the minute that was stated the work came last: a reading of that minute may be of the old part.
TEST_F(JobCall, TakesNoReadingOfTheMinuteOfTheRepairForProof) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  std::array<char, 32> minute{};
  const std::time_t now = std::time(nullptr);
  std::strftime(minute.data(), minute.size(), "%Y-%m-%d %H:%M", std::localtime(&now));
  done({"replace", "heater", "--new", "heater-450w-120v", "--time", minute.data()});
  EXPECT_THAT(refused({"close", "repaired"}),
              AllOf(HasSubstr("its insulation was not read since"), HasSubstr("earth bond was not read since")));
}

/// The meter that was named last is the usual one, for the verdict as for the search.
TEST_F(JobCall, JudgesAndSearchesWithTheMeterThatWasNamedLast) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v", "--meter", "basic"});
  done({"sign", "--meter", "bench"});
  run({"read", "heater", "32.0", "--lead-off"});
  EXPECT_THAT(report()["readings"].back()["meter"].get<std::string>(), StartsWith("Bench meter"));
  EXPECT_THAT(run({"find"}).out, HasSubstr("Bench meter"));
  done({"sign", "--meter", "basic"});
  run({"read", "heater", "32.0", "--lead-off"});
  EXPECT_THAT(report()["readings"].back()["meter"].get<std::string>(), Not(HasSubstr("Bench")));
}

/// A taking back stays, and what is taken back twice is told so: neither would change anything.
TEST_F(JobCall, TakesBackWhatCountsAndOnce) {
  done({"open", "a"});
  done({"sign", "--symptom", "no-heat", "--symptom", "frost-whole-coil"});
  EXPECT_THAT(done({"correct", "last"}), HasSubstr("They stay in the book"));
  EXPECT_THAT(refused({"correct", id_of_last("taken-back")}), HasSubstr("entered anew"));
  EXPECT_THAT(refused({"correct", id_of_last("evidence")}), HasSubstr("taken back already"));
  EXPECT_THAT(refused({"correct", "last"}), HasSubstr("no entry that can be taken back"));
  done({"close", "declined"});
  done({"visit", "--job", "1"});
  done({"correct", "last"});
  EXPECT_THAT(done({"show"}), HasSubstr("State: declined"));
  EXPECT_THAT(done({"show"}), Not(HasSubstr("act:")));
}

TEST_F(JobCall, RefusesAnAuthorThatItCouldNotExport) {
  done({"open", "a"});
  EXPECT_THAT(refused({"note", "n", "--who", "J\xff"}), HasSubstr("is no UTF-8"));
  EXPECT_EQ(run({"list", "--who", "J\xff"}).exit_code, 0) << "who only reads writes nothing";
  done({"export"});
}

TEST_F(JobCall, ABadEarthBondBarsTheForcedDefrostOfTheSameCommand) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(
      run({"verify", "--earth-bond", "5ohm", "--test-current", "10A", "--forced-defrost", "ended", "--live-agreed"})
          .err,
      HasSubstr("no forced defrost while"));
  EXPECT_EQ(report()["checks"].size(), 1U) << "the bad bond is in the book";
  EXPECT_EQ(report()["checks"][0]["outcome"], "out-of-limits");
}

/// What a log proves, by itself and beside one from before the repair.
TEST_F(JobCall, TakesALogForProofOnlyWhereItShowsDefrosts) {
  const auto file = [&](const std::string& name, const std::string& text) {
    std::ofstream(folder_ + "/" + name) << text;
    return folder_ + "/" + name;
  };
  const std::string never = file("never.csv", testing::freezer(testing::Defrosts::never));
  const std::string well = file("well.csv", testing::freezer(testing::Defrosts::well));
  const std::string brief = file("brief.csv", testing::freezer(testing::Defrosts::never).substr(0, 180));
  done({"open", "a"});
  const auto last_outcome = [&] { return report()["checks"].back()["outcome"]; };
  EXPECT_EQ(run({"verify", "--log", brief}).exit_code, 3);
  EXPECT_EQ(last_outcome(), "undecided") << "some minutes of log prove nothing";
  EXPECT_THAT(run({"verify"}).out, HasSubstr("A log over some days."));
  EXPECT_EQ(run({"verify", "--log", never}).exit_code, 1);
  EXPECT_EQ(last_outcome(), "out-of-limits");
  EXPECT_THAT(run({"verify"}).out, HasSubstr("The last log shows a fault. Find out why, mend it, then log it again."));
  EXPECT_THAT(refused({"close", "repaired", "--because", "it runs"}), HasSubstr("The last log shows a fault."));
  EXPECT_EQ(run({"verify", "--before", never, "--log", well}).exit_code, 3) << "a forced defrost is left";
  EXPECT_EQ(last_outcome(), "within-limits");
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("A log over some days")));
  EXPECT_THAT(report()["customer"]["proof"].dump(), Not(HasSubstr("NO DEFROST")));
  EXPECT_EQ(run({"verify", "--before", never, "--log", never}).exit_code, 1);
  EXPECT_THAT(refused({"verify", "--before", never}), HasSubstr("--before needs --log"));
  EXPECT_EQ(run({"verify", "--log", folder_ + "/none.csv"}).exit_code, 2);
}

TEST_F(JobCall, ProvesAPartWithoutAnAppliance) {
  done({"open", "a"});
  done({"replace", "heater", "--new", "unknown", "--because", "no plate"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("insulation was not read since"));
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"});
  done({"close", "repaired"});
}

TEST_F(JobCall, LooksAtNothingBeforeWhatTinglesIsProvedSafe) {
  done({"open", "a", "--appliance", "drum-dryer-230v", "--answer", "tingles=yes", "--symptom", "no-heat"});
  const std::string card = done({"card"});
  EXPECT_THAT(card,
              AllOf(HasSubstr("STOP: not plugged in before"), HasSubstr("no insulation"),
                    HasSubstr("The earth bond was not read"), Not(HasSubstr("while it")), Not(HasSubstr(" ice "))));
}

// Who signs the sheet reads first that it must stay unplugged, and that a leak was measured.
TEST_F(JobCall, TellsTheCustomerFirstNotToPlugItIn) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(done({"report"}), Not(HasSubstr("Do not plug it in")));
  run({"read", "heater-to-frame=0.2M"});
  done({"close", "declined"});
  const std::string report = done({"report"});
  EXPECT_THAT(report, AllOf(StartsWith("Do not plug it in: it leaks, and its case may become live."),
                            HasSubstr("0.2000 MΩ, which is a leak to its case.")));
  const std::string page = done({"report", "--format", "html"});
  EXPECT_LT(page.find("<h1>Do not plug it in: it leaks"), page.find("<h1>Job 1"));
  EXPECT_THAT(done({"report", "--format", "json"}), HasSubstr("\"warning\": \"Do not plug it in"));
}

TEST_F(JobCall, SaysThatSafetyIsNotProvedWhereNothingWasRead) {
  done({"open", "a", "--appliance", "drum-dryer-230v", "--answer", "tingles=yes"});
  EXPECT_THAT(done({"report"}), StartsWith("Do not plug it in: it was not proved safe."));
}

TEST_F(JobCall, SpeaksOfNoIceWhereThereIsNone) {
  const std::string opened = done({"open", "a", "--appliance", "drum-dryer-230v"});
  EXPECT_THAT(opened, AllOf(Not(HasSubstr(" ice ")), Not(HasSubstr("refrigerant"))));
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("defrost")));
}

TEST_F(JobCall, BewaresOfFireUnlessTheLabelIsKnownNotToBurn) {
  for (const char* label : {"isobutane", "propane", "R-441A", "R-436A", "R-32", "R-9999"})
    EXPECT_THAT(done({"open", "a", "--answer", std::string("refrigerant=") + label}),
                HasSubstr("flammable refrigerant"))
        << label;
  EXPECT_THAT(done({"open", "a", "--answer", "refrigerant=R-134a"}), Not(HasSubstr("flammable refrigerant")));
}

TEST_F(JobCall, TellsWhatATestPointIsAndWhatContradictsIt) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "heater-alone", "32.1"}), HasSubstr("write: ohmwright job read heater-alone=32.1"));
  EXPECT_THAT(refused({"read", "heater-alone=32.1", "--in-circuit"}), HasSubstr("a lead is off there"));
  EXPECT_EQ(run({"read", "--lead-off", "heater-alone=32.1"}).exit_code, 0);
  EXPECT_THAT(refused({"replace", "nosuch", "--new", "unknown"}), HasSubstr("the appliance has no part"));
}

TEST_F(JobCall, RefusesALiveReadingWithoutAYesAndRecordsTheYes) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost=118"}), HasSubstr("--live-agreed"));
  EXPECT_EQ(run({"read", "volts-heater@forced-defrost=118", "--live-agreed"}).exit_code, 0);
  EXPECT_THAT(report()["notes"].dump(), HasSubstr("agreed to the caution of the live step volts-heater"));
}

/// 32 ohm of a 450 W heater at 120 V: V²/P (Ohm's law).
TEST_F(JobCall, TakesAReadingStraightFromAnInstrument) {
  std::atomic<int> asked = 0;
  const testing::SimulatedInstrument instrument([&asked](std::string_view line) -> testing::Answer {
    ++asked;
    return {line == "*IDN?" ? "EXAMPLE,BENCH METER,0,1.0\n" : "+3.20000000E+01\n"};
  });
  const std::string address = instrument.address();
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost", "--from", address}), HasSubstr("--live-agreed"));
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost", "--from", address, "--live-agreed"}),
              HasSubstr("is for parts without power"));
  EXPECT_THAT(refused({"read", "heater", "--from", address + "#current"}), HasSubstr("--live-agreed"));
  EXPECT_THAT(refused({"read", "heater-alone=32", "--from", address}), HasSubstr("states a value"));
  EXPECT_THAT(refused({"read", "heater-alone", "--from", address, "--time", "2026-01-01 10:00"}),
              HasSubstr("leave one out"));
  EXPECT_EQ(asked, 0) << "what is refused asks no instrument";
  const Ran at_a_point = run({"read", "heater-alone", "--from", address});
  EXPECT_EQ(at_a_point.exit_code, 0) << at_a_point.err;
  EXPECT_THAT(at_a_point.out, AllOf(HasSubstr("The instrument shows 32 ohm."), HasSubstr("IN SPEC")));
  const Ran of_a_part = run({"read", "heater", "--from", address, "--lead-off"});
  EXPECT_EQ(of_a_part.exit_code, 0) << of_a_part.err;
  EXPECT_THAT(run({"show"}).out, AllOf(HasSubstr("heater-alone=32 ohm"), HasSubstr("shown: 32 ohm\n      --lead-off")));
  EXPECT_EQ(report()["readings"].size(), 2U);
  EXPECT_EQ(report()["readings"][0]["outcome"], report()["readings"][1]["outcome"]);
  EXPECT_THAT(refused({"read", "heater-alone", "heater-to-frame", "--from", address}),
              HasSubstr("one after the other"));
}

TEST_F(JobCall, KeepsAReadingThatIsEnteredLaterWithItsTime) {
  done({"open", "a"});
  EXPECT_EQ(run({"read", "heater", "32", "--lead-off", "--ratings", "heater-450w-120v", "--time", "2026-01-02 03:04"})
                .exit_code,
            0);
  EXPECT_EQ(report()["readings"][0]["time"], "2026-01-02T03:04:00.000Z");
  EXPECT_THAT(refused({"note", "n", "--time", "2999-01-01 00:00"}), HasSubstr("still to come"));
  EXPECT_THAT(refused({"note", "n", "--time", "2026-02-30 10:00"}), HasSubstr("--time takes"));
}

TEST_F(JobCall, TakesBackWhatWasWrong) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  done({"correct", "last", "--because", "wrong lead"});
  EXPECT_TRUE(report()["readings"].empty());
  EXPECT_THAT(run({"show"}).out, AllOf(HasSubstr("(taken back)"), HasSubstr("wrong lead")));
  EXPECT_THAT(refused({"correct", "ffff0000"}), HasSubstr("has no entry"));
}

TEST_F(JobCall, NamesWhatItDoesNotKnow) {
  EXPECT_THAT(refused({"list"}), HasSubstr("is not there yet"));
  EXPECT_THAT(refused({"opne", "a"}), HasSubstr("did you mean \"open\""));
  EXPECT_THAT(refused({"open"}), HasSubstr("missing: TITLE"));
  EXPECT_THAT(refused({"open", "a", "--earth-bond", "1"}), HasSubstr("job open does not take --earth-bond"));
  EXPECT_THAT(refused({"open", "a", "--bogus"}), HasSubstr("unknown option"));
  EXPECT_FALSE(std::filesystem::exists(folder_ + "/ohmwright/jobs.db")) << "what is refused begins no book";
  done({"open", "a"});
  EXPECT_THAT(refused({"next"}), HasSubstr("the job has no appliance"));
  done({"sign", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"sign", "--symptom", "frost-whole-coll"}), HasSubstr("did you mean \"frost-whole-coil\""));
  EXPECT_THAT(refused({"sign", "--cannot-reach", "nowhere"}), HasSubstr("has no test point"));
  EXPECT_THAT(refused({"read", "heater-alon=OL"}), HasSubstr("did you mean \"heater-alone\""));
  EXPECT_THAT(refused({"show", "77"}), HasSubstr("no job \"77\""));
}

TEST_F(JobCall, ExportsAndImportsWithoutLossOrDoubles) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-alone=OL"});
  done({"open", "b"});
  const std::string file = folder_ + "/all.jsonl";
  done({"export", "--out", file});
  const std::string other = folder_ + "/other.db";
  EXPECT_THAT(done({"import", file, "--book", other}), HasSubstr("2 jobs, 4 entries; 0 were there"));
  EXPECT_THAT(done({"import", file, "--book", other}), HasSubstr("0 jobs, 0 entries; 4 were there"));
  EXPECT_EQ(done({"export", "--book", other}), done({"export"}));
  EXPECT_THAT(done({"check", "--book", other}), HasSubstr("sound; jobs in it: 2"));
  EXPECT_EQ(done({"export", "--out", "-"}), done({"export"})) << "- is standard output here, too";
}

/// Script, SQL, quotes, escapes of a terminal, text that turns around, line feeds.
const std::string hostile_text =
    "<script>alert('x')</script>\"'; DROP TABLE entry; --\x1b[31mred\nohmwright: all is well\u202e\u009b2J";

TEST_F(JobCall, TakesHostileTextForTextEverywhere) {
  const std::string& bad = hostile_text;
  done({"open", bad, "--complaint", bad, "--answer", "tried=" + bad, "--answer", "refrigerant=" + bad, "--who", bad});
  done({"note", bad});
  done({"wait", "part", "--because", bad});
  done({"visit"});
  done({"replace", "heater", "--new", "unknown", "--because", bad});
  done({"close", "declined", "--because", bad});
  for (const std::vector<std::string>& words :
       {std::vector<std::string>{"list"}, {"show", "1"}, {"report"}, {"list", "--width", "40"}}) {
    const std::string out = run(words).out;
    for (const char* raw : {"\x1b[31m", "\u202e", "\u009b", "\nohmwright: all"})
      EXPECT_THAT(out, Not(HasSubstr(raw))) << words[0];
  }
  const std::string html = run({"report", "--format", "html"}).out;
  EXPECT_THAT(html, AllOf(Not(HasSubstr("<script")), HasSubstr("&lt;script&gt;"), HasSubstr("default-src 'none'")));
  EXPECT_THAT(html, AllOf(Not(HasSubstr("\x1b")), Not(HasSubstr("\u202e"))));
  EXPECT_EQ(report()["title"], bad);
  EXPECT_THAT(done({"check"}), HasSubstr("sound; jobs in it: 1"));
  for (const std::vector<std::string>& words : {std::vector<std::string>{"read", bad},
                                                {"sign", "--symptom", bad},
                                                {"show", bad},
                                                {"correct", bad},
                                                {"import", "./" + bad}})
    EXPECT_THAT(refused(words), Not(HasSubstr("\x1b"))) << words[0];
  EXPECT_THAT(refused({"note", "--job", "1", "\xff"}), HasSubstr("no UTF-8"));
}

TEST_F(JobCall, RefusesAMegabyteOfTextInALine) {
  const Ran ran = run({}, std::string(1U << 20U, 'x') + "\n");
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("a text of 1048576 bytes is too long"));
  EXPECT_THAT(run({"list"}).out, HasSubstr("No such job"));
}

TEST_F(JobCall, IsRightAtFortyColumns) {
  done({"open", "Freezer warm", "--appliance", "upright-timer-bimetal-120v", "--symptom", "frost-whole-coil"});
  run({"read", "heater-alone=OL"});
  for (const std::vector<std::string>& words : {std::vector<std::string>{"card"},
                                                {"next", "--width", "40"},
                                                {"list", "--width", "40"},
                                                {"report", "--width", "40"}}) {
    std::istringstream lines(run(words).out);
    for (std::string line; std::getline(lines, line);) {
      const auto columns = std::count_if(line.begin(), line.end(),
                                         [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
      const bool one_word = line.find_first_of(' ', line.find_first_not_of(' ')) == std::string::npos;
      EXPECT_TRUE(columns <= 40 || one_word) << words[0] << ": " << line;
    }
  }
}

}  // namespace
}  // namespace ohmwright
