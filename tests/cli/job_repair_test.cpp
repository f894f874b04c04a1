// One service call through the program: what goes in for what, and when a repair is closed.

#include <fstream>
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
              AllOf(HasSubstr("the insulation of a part that is wired to it"), HasSubstr("And the earth bond")));
  EXPECT_THAT(refused({"close", "repaired"}), AllOf(HasSubstr("the insulation of its circuit was not read since"),
                                                    HasSubstr("The earth bond was not read")));
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

TEST_F(JobCall, TellsAtCloseWhatIsStillToBePluggedInNoMore) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-to-frame=0.1M"});
  EXPECT_THAT(done({"close", "declined"}),
              AllOf(HasSubstr("Not plugged in before"), HasSubstr("leaks to earth"), Not(HasSubstr("Still unproved"))));
}

}  // namespace
}  // namespace ohmwright
