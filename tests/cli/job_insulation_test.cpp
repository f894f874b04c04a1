// What proves in a job that nothing is live that must not be: how much, and of which part.

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job_call.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;

/// Class II has no earth to carry a fault away: 2 Mohm (EN 50699), also of what was read before anybody said so.
TEST_F(JobCall, AsksMoreOfTheInsulationWhereThereIsNoEarth) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "32.0"});
  run({"read", "heater", "insulation=1.5M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("2 MΩ"))) << "beside an earth 1 Mohm will do";
  const std::string verified = run({"verify", "--earth-bond", "none", "--because", "class II on plate"}).out;
  EXPECT_THAT(verified, AllOf(HasSubstr("no protective earth: class II on plate"), HasSubstr("2 MΩ")));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("2 MΩ"));
  run({"read", "heater", "insulation=1.9M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(refused({"close", "repaired", "--because", "near enough"}), HasSubstr("2 MΩ"));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_EQ(run({"close", "repaired"}).exit_code, 0);
}

/// The customer sees what was tested, not that it tells nothing of the rest.
TEST_F(JobCall, ShowsAnInsulationThatIsInSpec) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "insulation=1.5M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"report", "--width", "300"}).out, Not(HasSubstr("INSULATION IN SPEC")))
      << "not where there is no earth";
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"report", "--width", "300"}).out, HasSubstr("INSULATION IN SPEC"));
}

/// An earth that is there after all, and read good, asks for no more than 1 Mohm.
TEST_F(JobCall, AsksNoMoreOnceTheEarthIsFound) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  done({"replace", "heater", "--new", "heater-450w-120v"});
  run({"read", "heater", "insulation=1.5M", "--test", "500V", "--proved-dead", "--lead-off"});
  run({"verify", "--earth-bond", "none", "--because", "looks like it"});
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("2 MΩ")));
}

/// The connector of a sensor lies between sensor and board: 500 V would destroy both, and prove nothing of the mains.
TEST_F(JobCall, TakesNothingOfASensorsCircuitForAProofOfTheMains) {
  done({"open", "a", "--appliance", "bottom-freezer-thermistor-230v"});
  EXPECT_THAT(done({"replace", "sensor", "--new", "ntc-5k-b3977"}),
              AllOf(HasSubstr("a part at the mains"), Not(HasSubstr("wired to it"))));
  run({"verify", "--earth-bond", "0.05ohm", "--test-current", "10A"});
  EXPECT_THAT(run({"read", "sensor-connector", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"}).out,
              HasSubstr("lies at low voltage"));
  EXPECT_THAT(run({"verify"}).out, HasSubstr("a part that lies at the mains"));
  EXPECT_THAT(refused({"close", "repaired"}), HasSubstr("no insulation was read since"));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_EQ(run({"close", "repaired"}).exit_code, 0);
}

/// What went in is what is read afterwards, though the file of the appliance has no such part.
TEST_F(JobCall, JudgesAPartOfNoFileByTheRatingsThatWentIn) {
  done({"open", "a"});
  done({"replace", "fan-motor", "--old", "ec-12v", "--new", "ec-12v"});
  const std::string read = run({"read", "fan-motor", "insulation=OL", "--proved-dead", "--lead-off"}).out;
  EXPECT_THAT(read, AllOf(HasSubstr("extra-low"), Not(HasSubstr("Test it with a 500 V"))));
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("The insulation of")));
  run({"read", "fan-motor", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"verify"}).out, HasSubstr("with an ohmmeter alone")) << "500 V prove nothing where they destroy";
}

/// What a tester shows past its range is told as it shows it.
TEST_F(JobCall, TellsATestersRangeByItsEnd) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater", "insulation=>200M", "--test", "500V", "--proved-dead", "--lead-off"});
  const std::string all = report().dump();
  EXPECT_THAT(all, AllOf(HasSubstr("> 200"), Not(HasSubstr("OL (500"))));
}

/// A new connector in that circuit asks for no 500 V, and an ohmmeter does not leave it open for ever.
TEST_F(JobCall, AsksNo500VoltsOfAWireAtLowVoltage) {
  done({"open", "a", "--appliance", "bottom-freezer-thermistor-230v"});
  EXPECT_THAT(done({"replace", "sensor-connector", "--new", "connector"}),
              Not(HasSubstr("read sensor-connector insulation")));
  run({"read", "sensor-connector", "insulation=OL", "--proved-dead", "--lead-off"});
  EXPECT_THAT(run({"verify"}).out, Not(HasSubstr("is not decided")));
}

/// A good insulation, read by itself, is what was asked, and no ohms are asked for that were read.
TEST_F(JobCall, TellsAGoodInsulationAsSuch) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  const std::vector<std::string> tested{"read", "heater",        "insulation=200M", "--test",
                                        "500V", "--proved-dead", "--lead-off"};
  const std::string good = "Defrost heater: its insulation is within limits.";
  EXPECT_THAT(run(tested).out, AllOf(HasSubstr(good), HasSubstr("200 MΩ, tested with 500 V"), Not(HasSubstr("CAN'T"))));
  run({"read", "heater-alone=32"});
  EXPECT_THAT(run(tested).out, AllOf(HasSubstr(good), Not(HasSubstr("What to do next"))));
  EXPECT_THAT(run({"read", "heater", "insulation=0.2M", "--test", "500V", "--proved-dead", "--lead-off"}).out,
              Not(HasSubstr(good)));
  EXPECT_THAT(run({"read", "heater", "insulation=200M", "--proved-dead"}).out, Not(HasSubstr(good)))
      << "an ordinary meter proves nothing";
}

TEST_F(JobCall, TellsWhatIsAllThatCanBeAskedOfADirectCurrentFan) {
  done({"open", "a"});
  done({"replace", "fan-motor", "--old", "ec-12v", "--new", "ec-12v"});
  EXPECT_THAT(run({"read", "fan-motor", "insulation=OL", "--proved-dead", "--lead-off"}).out,
              AllOf(HasSubstr("insulation is within limits."), HasSubstr("class III"), Not(HasSubstr("CAN'T"))));
}

/// An ohmmeter that shows no way to the frame proves no insulation, and nothing is replaced to see whether it runs.
TEST_F(JobCall, OffersNoReplacementOnTrialByAnOhmmetersOL) {
  const std::string on_trial = "Replace the Defrost heater and see";
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  run({"read", "heater-to-frame=OL"});
  run({"read", "heater-alone=40"});
  EXPECT_THAT(done({"card", "--most", "20"}), Not(HasSubstr(on_trial)));
  run({"read", "heater", "insulation=200M", "--test", "500V", "--proved-dead", "--lead-off"});
  EXPECT_THAT(done({"card", "--most", "20"}), HasSubstr(on_trial));
}

}  // namespace
}  // namespace ohmwright
