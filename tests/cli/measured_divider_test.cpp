#include <filesystem>
#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

// A row of a real divider's log from its volts to the verdict: 2.651967 V across a thermistor of R25 10 kohm, B25/100
// 3988 K below 10 kohm at 4.989580 V (J. R. Leeman, Techniques of Geoscientific Experimentation, CC BY-SA 4.0, first
// row). By hand: R = 10000·V/(Vref − V) = 11344.8 ohm, 11357.6 ohm with a meter's 10 Mohm taken off; 1/T = 1/298.15 +
// ln(R/10000)/3988 is 22.19 degC, 22.21 degC without. The whole log: tests/outside/defrost_sensor.

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using testing::Ran;
using testing::run_program;

class MeasuredDivider : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-divider-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
    std::ofstream(folder_ / "control.json")
        << R"({"kind": "defrost-sensor", "name": "divider", "title": "Divider", "source": "open data",
              "control": {"pull_up": "10 kohm", "reference_voltage": "4.989580 V", "sensor_to": "ground"}})";
    std::ofstream(folder_ / "ratings.json")
        << R"({"kind": "defrost-sensor", "name": "ten-kilohm", "title": "10 kohm, B 3988 K", "source": "open data",
              "ratings": {"curve": {"form": "beta", "reference_resistance": "10 kohm",
                                    "reference_temperature": "25 degC", "beta": "3988 K",
                                    "beta_between": {"from": "25 degC", "to": "100 degC"}},
                          "tolerance": {"reference": {"value": "5 %", "source": "common practice, no source"}}}})";
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  Ran check(std::vector<std::string> words) const {
    words.insert(words.begin(), {"check", "thermistor"});
    for (const char* option : {"--ratings", "--meter"}) words.emplace_back(option);
    words.insert(words.end() - 1, (folder_ / "ratings.json").string());
    words.emplace_back("bench");
    return run_program(words);
  }

  std::filesystem::path folder_;
};

TEST_F(MeasuredDivider, ItsVoltsSayWhatTheBoardBelieves) {
  const Ran ran = check(
      {"voltage=2.651967V", "--at", "22.2C ± 0.5K", "--live-agreed", "--control", (folder_ / "control.json").string()});
  EXPECT_EQ(ran.exit_code, 3) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("2.652 V across the sensor means 11.36 kΩ"));
  EXPECT_THAT(ran.out, HasSubstr("22.2 °C. The meter's own 10 MΩ made it seem 0.02 K warmer."));
}

TEST_F(MeasuredDivider, ItsOhmsPassAtTheirTemperatureAndNotTenKelvinAway) {
  EXPECT_EQ(check({"11344.8ohm", "--at", "22.2C ± 0.5K", "--lead-off"}).exit_code, 0);
  EXPECT_EQ(check({"11344.8ohm", "--at", "12.2C ± 0.5K", "--lead-off"}).exit_code, 1);
}

}  // namespace
}  // namespace ohmwright
