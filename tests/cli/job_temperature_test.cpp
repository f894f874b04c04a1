// A temperature that was said belongs to the readings taken under it.

#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job_call.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::JobCall;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

constexpr const char* board_upright = "upright-thermistor-230v";
constexpr const char* timer_upright = "upright-timer-bimetal-120v";

/// The class "opens-13" is open above 13 °C: days later it is warm, and open there is normal.
TEST_F(JobCall, AnotherVisitEndsATemperature) {
  done({"open", "a", "--appliance", timer_upright, "--zone", "coil=-18C"});
  EXPECT_EQ(run({"read", "thermostat-alone=OL"}).exit_code, 1) << "open where it is cold";
  done({"correct", "last"});
  done({"wait", "part"});
  done({"visit"});
  const Ran warm = run({"read", "thermostat-alone=OL"});
  EXPECT_EQ(warm.exit_code, 3) << warm.out;
  EXPECT_THAT(warm.out, AllOf(Not(HasSubstr("OUT OF SPEC")), HasSubstr("job sign --zone coil=4C")));
}

/// 10 kΩ at 25 °C (77 °F), 67 kΩ at 5 °F, with B 3977 K (beta equation).
TEST_F(JobCall, AReplacementEndsATemperatureAndAReadingCanHaveItsOwn) {
  done({"open", "a", "--appliance", board_upright, "--zone", "coil=5F"});
  EXPECT_EQ(run({"read", "sensor-plug=10.1k"}).exit_code, 1);
  done({"replace", "sensor", "--new", "ntc-10k-b3977"});
  EXPECT_EQ(run({"read", "sensor-plug=12.5k"}).exit_code, 3);
  EXPECT_THAT(done({"read", "sensor-plug=10.1k", "--at", "77F ± 0.5K"}), HasSubstr("77.0"));
  EXPECT_EQ(run({"read", "sensor-plug=10.1k", "--at", "5F"}).exit_code, 1);
  EXPECT_EQ(run({"read", "sensor-plug=12.5k"}).exit_code, 3) << "it was the temperature of one reading";
  EXPECT_THAT(refused({"read", "heater-plug=OL", "--at", "77F"}), HasSubstr("job sign --zone coil=77F"));
  EXPECT_THAT(refused({"read", "sensor-plug=10.1k", "--at"}), HasSubstr("--at"));
}

TEST_F(JobCall, WeighsAReadingAtTheTemperatureOfItsTime) {
  done({"open", "a", "--appliance", board_upright, "--symptom", "frost-whole-coil", "--zone", "coil=5F"});
  run({"read", "sensor-plug=67k"});
  done({"sign", "--zone", "coil=77F"});
  EXPECT_THAT(run({"find"}).out, AllOf(HasSubstr("evaporator coil at"), Not(HasSubstr("corroded joint in series"))));
  done({"sign", "--zone", "coil=unknown"});
  EXPECT_THAT(run({"find"}).out, HasSubstr("Temperature of the evaporator coil: not measured"));
}

TEST_F(JobCall, ASetUpAndAThawEndATemperature) {
  for (const std::vector<std::string>& what :
       {std::vector<std::string>{"read", "heater-alone@thawed=32"}, {"sign", "--thawed"}}) {
    done({"open", "a", "--appliance", timer_upright, "--zone", "coil=-18C", "--zone", "room=24C"});
    run(what);
    EXPECT_EQ(run({"read", "thermostat-alone=OL"}).exit_code, 3) << what[0];
    EXPECT_THAT(run({"find"}).out, HasSubstr("Temperature of the room, and what stands at the back: 24.0 °C"));
  }
}

/// 10 kΩ at 25 °C with B 3977 K are 8.06 kΩ at 30 °C; "opens-13" closes again below some -4 °C, 48 °F are 8.9 °C.
TEST_F(JobCall, AThawedCoilIsAsWarmAsTheRoomIsSaidToBe) {
  done({"open", "a", "--appliance", board_upright, "--answer", "room=30C"});
  EXPECT_NE(run({"read", "sensor-plug@thawed=8.06k"}).exit_code, 1);
  done({"open", "b", "--appliance", board_upright, "--zone", "room=30C ± 0.5K"});
  EXPECT_NE(run({"read", "sensor-plug@thawed=8.06k"}).exit_code, 1);
  EXPECT_EQ(run({"read", "sensor-plug@thawed=16k"}).exit_code, 1);
  done({"open", "c", "--appliance", timer_upright, "--answer", "room=48F"});
  EXPECT_EQ(run({"read", "thermostat-alone@thawed=closed"}).exit_code, 3);
  done({"open", "d", "--appliance", board_upright});
  EXPECT_THAT(run({"read", "sensor-plug@thawed=10.1k"}).out,
              AllOf(HasSubstr("Nobody said how warm the room is"), HasSubstr("job sign --zone room=24C"),
                    Not(HasSubstr("OUT OF SPEC"))));
}

TEST_F(JobCall, AssumesOneDoubtOfATemperatureAndSaysSo) {
  done({"open", "a", "--appliance", board_upright, "--zone", "coil=23C"});
  const std::string read = done({"read", "sensor-plug=11.0k"});
  const Ran check =
      run_program({"check", "thermistor", "11.0k", "--at", "23C", "--lead-off", "--ratings", "ntc-10k-b3977"});
  for (const std::string& words : {read, check.out})
    EXPECT_THAT(words, AllOf(HasSubstr("23.0 °C ± 1.0 K (doubt assumed)"), HasSubstr("95.9")));
}

/// Of a good sensor on a coil that nobody measured no single value is "about" what it would show.
TEST_F(JobCall, SaysAllThatAGoodSensorMayShow) {
  std::vector<std::string> words{"open", "a", "--appliance", board_upright, "--answer", "room=77F"};
  done(words);
  words = {"sign"};
  for (const char* cause : {"door-gasket", "drain-blocked", "outlet-dead", "room-too-cold"}) {
    words.emplace_back("--looked");
    words.push_back(std::string(cause) + "=fine");
  }
  done(words);
  run({"read", "heater-plug=290"});
  EXPECT_THAT(run({"next"}).out, AllOf(HasSubstr("Ohms at the sensor's plug"),
                                       HasSubstr("8.3 kΩ to 260 kΩ if Evaporator fan: bearing seized")));
}

/// At a test point the leads are not stated: the refusal tells how the part is read with them.
TEST_F(JobCall, TellsHowAPartIsReadWithItsLeads) {
  done({"open", "a", "--appliance", "upright-timer-bimetal-120v"});
  EXPECT_THAT(refused({"read", "thermostat-alone=OL", "--at", "72F", "--leads", "0.3ohm"}),
              HasSubstr("write: ohmwright job read thermostat OL --at 72F --leads 0.3ohm --lead-off"));
}

}  // namespace
}  // namespace ohmwright
