// Appliance files with mistakes, through the real program: every message, word for word.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;

/// A shipped appliance with `from` replaced by `to`, in a file of its own.
class Changed : public ::testing::Test {
 protected:
  void TearDown() override { std::filesystem::remove(path_); }

  std::string refusal(const std::string& from, const std::string& to) const {
    std::ifstream shipped(OHMWRIGHT_SOURCE_DIR
                          "/framework/ohmwright/appliance/appliances/upright-thermistor-230v.json");
    std::stringstream text;
    text << shipped.rdbuf();
    std::string changed = text.str();
    const std::size_t at = changed.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    changed.replace(at, from.size(), to);
    std::ofstream(path_) << changed;
    const testing::Ran ran = testing::run_program({"locate", path_});
    EXPECT_EQ(ran.exit_code, 2) << ran.err;
    return ran.err;
  }

  std::string path_ = "/tmp/ohmwright-appliance-" + std::to_string(::getpid()) + ".json";
};

TEST_F(Changed, NamesThatAreNotThere) {
  EXPECT_THAT(refusal(R"("zone": "coil")", R"("zone": "coal")"),
              HasSubstr("/parts/0/zone: there is no zone \"coal\"; did you mean \"coil\"?"));
  EXPECT_THAT(refusal(R"("kind": "heater")", R"("kind": "haeter")"),
              HasSubstr("/parts/2/kind: no kind is called \"haeter\"; did you mean \"heater\"?"));
  EXPECT_THAT(refusal(R"("lead-1": "LK")", R"("lead-9": "LK")"),
              HasSubstr("/parts/2/connections/lead-9: a heater has no terminal \"lead-9\"; did you mean \"lead-1\"?"));
  EXPECT_THAT(refusal(R"("from": "DO")", R"("from": "DX")"),
              HasSubstr("/test_points/1/from: no part is at a node \"DX\"; expected \"L\", \"N\", \"PE\", "));
  EXPECT_THAT(refusal(R"("lifted": ["link.lead-1"])", R"("lifted": ["lynk.lead-1"])"),
              HasSubstr("/test_points/5/lifted/0: there is no part \"lynk\"; did you mean \"link\"?"));
  EXPECT_THAT(refusal(R"("cause": "sensor.drift-high")", R"("cause": "sensor.drift-hi")"),
              HasSubstr("/consequences/0/cause: a defrost-sensor has no fault \"drift-hi\"; did you mean "
                        "\"drift-high\"?"));
  EXPECT_THAT(refusal(R"("behind": ["drawers"])", R"("behind": ["coil-cover"])"),
              HasSubstr("the cover \"coil-cover\" is behind one that stands after it"));
}

TEST_F(Changed, ValuesThatCannotBe) {
  EXPECT_THAT(refusal("\"voltage\": \"230 V ± 14 V\"", "\"voltage\": \"230 ohm\""),
              HasSubstr("/supply/voltage: expected a voltage"));
  EXPECT_THAT(refusal(R"("live": "L", "neutral": "N")", R"("live": "N", "neutral": "N")"),
              HasSubstr("/supply: live and neutral are one node"));
  EXPECT_THAT(refusal(R"("measure": "ohms")", R"("measure": "amperes")"),
              HasSubstr("amperes are read \"around\" a part's lead, without \"from\" and \"to\""));
  EXPECT_THAT(refusal(R"("id": "link",)", R"("id": "sensor",)"),
              HasSubstr("/parts/1: the name \"sensor\" stands twice"));
  EXPECT_THAT(refusal(R"("zone": "coil")", R"("zoned": "coil")"), HasSubstr("unknown field \"zoned\""));
}

}  // namespace
}  // namespace ohmwright
