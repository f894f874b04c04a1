// What must not be done, or left, whatever the call has no file for, was named anew, or is told later.

#include <array>
#include <ctime>
#include <string>
#include <utility>
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

constexpr const char* upright_120v = "upright-timer-bimetal-120v";
constexpr const char* thermistor_230v = "upright-thermistor-230v";

std::string local_minute() {
  const std::time_t now = std::time(nullptr);
  std::array<char, 32> minute{};
  std::strftime(minute.data(), minute.size(), "%Y-%m-%d %H:%M", std::localtime(&now));
  return minute.data();
}

/// A job goes on though what was read is of no part of the appliance any more.
TEST_F(JobCall, GoesOnOnceItsApplianceIsNamedAnew) {
  done({"open", "a", "--appliance", upright_120v});
  EXPECT_EQ(run({"read", "heater-lead-alone=OL"}).exit_code, 1);
  done({"sign", "--appliance", thermistor_230v});
  for (const char* verb : {"next", "card", "find", "verify"}) EXPECT_NE(run({verb}).exit_code, 2) << verb;
  done({"close", "declined"});
}

TEST_F(JobCall, StopsForTheSealedSystemWithoutAnAppliance) {
  done({"open", "a", "--answer", "refrigerant=R-600a", "--symptom", "oil-stain"});
  const std::string stop = "speaks of the sealed refrigerant system";
  for (const char* verb : {"verify", "next"}) EXPECT_THAT(run({verb}).out, HasSubstr(stop)) << verb;
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed"}), HasSubstr(stop));
  EXPECT_THAT(refused({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"}), HasSubstr(stop));
  EXPECT_THAT(refused({"wait", "log"}), HasSubstr(stop));
  EXPECT_THAT(refused({"close", "repaired", "--because", "topped up"}), HasSubstr(stop));
  done({"close", "stopped"});
  EXPECT_THAT(report()["customer"]["warning"].get<std::string>(), HasSubstr("a gas that burns"));
}

TEST_F(JobCall, TestsNoInsulationAtASuspectedLeak) {
  done({"open", "a", "--appliance", thermistor_230v, "--answer", "refrigerant=R-600a", "--symptom", "oil-stain"});
  EXPECT_THAT(refused({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead"}),
              HasSubstr("speaks of the sealed refrigerant system"));
}

/// Whether the old one was read at a test point or by its name.
TEST_F(JobCall, AsksForTheNewPartWhereTheOldOneWasReadByItsName) {
  done({"open", "a", "--appliance", upright_120v});
  run({"read", "heater", "OL", "--lead-off", "--proved-dead"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "0.12ohm", "--test-current", "10A"});
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("the new one was not read as the old one was"));
  run({"read", "heater", "32", "--lead-off"});
  done({"close", "repaired"});
}

/// With its limit welded nothing heats, whichever way it is read: a timer that was turned by hand heats, too.
TEST_F(JobCall, ReadsNoHeatLivePastACondemnedLimit) {
  done({"open", "a", "--appliance", upright_120v});
  EXPECT_EQ(run({"read", "thermostat", "closed", "--at", "24C", "--lead-off"}).exit_code, 1);
  const std::string why = "what limits the heat is not proved";
  EXPECT_THAT(refused({"read", "heater", "current=3.8A", "--line", "118V", "--live", "--live-agreed"}), HasSubstr(why));
  EXPECT_THAT(refused({"read", "volts-heater@turned-to-defrost=118V", "--live-agreed"}), HasSubstr(why));
  EXPECT_THAT(refused({"read", "volts-heater@forced-defrost=118V", "--live-agreed"}), HasSubstr(why));
}

TEST_F(JobCall, TellsOfALimitThatWasReadBadInWhatHasNoFrost) {
  done({"open", "a", "--appliance", "drum-dryer-230v"});
  EXPECT_EQ(run({"read", "limit", "closed", "--at", "150C", "--lead-off"}).exit_code, 1);
  EXPECT_THAT(run({"next"}).out, HasSubstr("Do not let it heat before"));
  EXPECT_THAT(refused({"wait", "log"}), HasSubstr("what limits its heat is not proved"));
  EXPECT_THAT(done({"close", "declined"}), HasSubstr("Not plugged in before"));
  EXPECT_THAT(report()["customer"]["warning"].get<std::string>(),
              HasSubstr("what should end its heat is out of its limits"));
}

TEST_F(JobCall, TellsOfALimitThatWasReadBadWithoutAnAppliance) {
  done({"open", "a"});
  run({"read", "bimetal-thermostat", "closed", "--at", "24C", "--lead-off", "--ratings", "opens-13"});
  done({"close", "declined"});
  EXPECT_THAT(report()["customer"]["warning"].get<std::string>(), HasSubstr("what should end the heat"));
}

/// Who leaves it there to wait is told what nobody may do meanwhile.
TEST_F(JobCall, TellsWhoWaitsForAPartWhatIsNotPluggedIn) {
  done({"open", "a", "--appliance", upright_120v});
  run({"read", "heater-to-frame=0.1M"});
  EXPECT_THAT(done({"wait", "part"}), AllOf(HasSubstr("Not plugged in before"), HasSubstr("leaks to earth")));
}

/// A log of days is an appliance that runs: what is found meanwhile ends the wait, and is taken back with its cause.
TEST_F(JobCall, WaitsForNoLogOnceALimitIsReadBadOrTheSealedSystemSpeaks) {
  for (const std::vector<std::string>& found :
       {std::vector<std::string>{"read", "thermostat", "closed", "--at", "24C", "--lead-off"},
        std::vector<std::string>{"sign", "--symptom", "oil-stain"}}) {
    done({"open", found[0], "--appliance", upright_120v});
    done({"wait", "log"});
    EXPECT_THAT(run(found).out, HasSubstr("It waits for a log no longer"));
    EXPECT_THAT(run({"list"}).out, Not(HasSubstr("waiting for a log")));
    done({"correct", "last"});
    EXPECT_THAT(run({"list"}).out, HasSubstr("waiting for a log"));
    done({"close", "declined"});
  }
}

/// Two temperatures that `check` judges together are judged so in a call, typed one after the other.
TEST_F(JobCall, AGoodReadingAtAnotherTemperatureTakesNoCondemnedSensorAway) {
  done({"open", "a", "--appliance", thermistor_230v});
  EXPECT_EQ(run({"read", "sensor", "38k", "--lead-off", "--at", "0C ± 0.2K"}).exit_code, 1);
  const testing::Ran good_alone = run({"read", "sensor", "11k", "--lead-off", "--at", "23C ± 1K"});
  EXPECT_EQ(good_alone.exit_code, 1);
  EXPECT_THAT(good_alone.out, HasSubstr("this is a sensor of another curve"));
  EXPECT_THAT(run({"report"}).out, AllOf(HasSubstr("It was judged together"), HasSubstr("38.00 kΩ at 0.00 °C")));
  EXPECT_EQ(run({"read", "sensor", "32.5k", "--lead-off", "--at", "0C ± 0.2K"}).exit_code, 0)
      << "read anew at that temperature";
}

/// A good thermostat that is followed up and down is judged in the order in which it was read.
TEST_F(JobCall, JudgesAContactInTheOrderInWhichItWasRead) {
  done({"open", "a", "--appliance", upright_120v});
  const auto read = [&](const char* shown, const char* at) {
    return run({"read", "thermostat", shown, "--at", at, "--lead-off"});
  };
  for (const auto& [shown, at] : {std::pair{"0.2", "11C"}, std::pair{"OL", "14C"}, std::pair{"OL", "0C"},
                                  std::pair{"0.2", "-5C"}, std::pair{"0.2", "-9C"}})
    EXPECT_NE(read(shown, at).exit_code, 1) << shown << " at " << at;
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("out of its limits")));
}

/// Open in the cold it is worn: it ends each defrost, and no heat tripped it.
TEST_F(JobCall, AsksForNoCauseOfADefrostThermostatThatWasOpen) {
  done({"open", "a", "--appliance", upright_120v});
  EXPECT_EQ(run({"read", "thermostat", "OL", "--at", "-15C", "--lead-off"}).exit_code, 1);
  done({"replace", "thermostat", "--new", "opens-13"});
  run({"read", "thermostat", "0.2", "--at", "-15C", "--lead-off"});
  run({"read", "thermostat", "OL", "--at", "22C", "--lead-off"});
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("tripped")));
}

/// Of the minute that is not over nobody tells what was first.
TEST_F(JobCall, TheMinuteThatIsNotOverGoesPastNoBar) {
  done({"open", "a", "--appliance", upright_120v});
  run({"read", "heater-to-frame=0.1M"});
  const std::string now = local_minute();
  EXPECT_THAT(refused({"verify", "--forced-defrost", "ended", "--live-agreed", "--time", now}), HasSubstr("leaks to"));
  done({"correct", "last"});
  EXPECT_THAT(refused({"read", "heater-to-frame=0.1M", "volts-run=118V", "--live-agreed"}),
              HasSubstr("what is read beside it leaks"));
}

/// After it ran, plugged in and closed, its next step begins with the plug and the covers.
TEST_F(JobCall, BeginsWithThePlugAfterAForcedDefrost) {
  done({"open", "a", "--appliance", upright_120v, "--symptom", "frost-whole-coil"});
  run({"read", "heater-alone=OL"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=300M", "--test", "500V", "--lead-off", "--dry"});
  run({"read", "heater-alone=32.1"});
  run({"verify", "--earth-bond", "0.1ohm", "--test-current", "10A"});
  run({"verify", "--forced-defrost", "no-heat", "--live-agreed"});
  EXPECT_THAT(run({"card", "--most", "3"}).out, AllOf(HasSubstr("nplug"), HasSubstr("Take off")));
}

TEST_F(JobCall, NamesThePartsWhereAPartIsMisspelt) {
  done({"open", "a", "--appliance", thermistor_230v});
  EXPECT_THAT(refused({"read", "sensr", "11k"}),
              AllOf(HasSubstr("has no part \"sensr\"; did you mean \"sensor\"?"), HasSubstr("its parts: ")));
}

}  // namespace
}  // namespace ohmwright
