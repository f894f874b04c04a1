#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/quantity/near_miss.hpp>

namespace ohmwright {
namespace {

const std::vector<std::string> kinds{"defrost-heater", "fan-motor", "fan-relay", "mohm", "Mohm"};

TEST(NearMiss, FindsTheNameBehindATypingError) {
  EXPECT_EQ(near_miss("fan-moter", kinds), "fan-motor");
  EXPECT_EQ(near_miss("fanmotor", kinds), "fan-motor");
  EXPECT_EQ(near_miss("afn-motor", kinds), "fan-motor");
  EXPECT_EQ(near_miss("FAN-MOTOR", kinds), "fan-motor");
}

TEST(NearMiss, LetterCaseBreaksATie) {
  EXPECT_EQ(near_miss("Mhom", kinds), "Mohm");
  EXPECT_EQ(near_miss("mhom", kinds), "mohm");
}

TEST(NearMiss, GuessesNothingThatIsFar) {
  EXPECT_EQ(near_miss("compressor", kinds), std::nullopt);
  EXPECT_EQ(near_miss("", kinds), std::nullopt);
  EXPECT_EQ(near_miss("f", kinds), std::nullopt);
  EXPECT_EQ(near_miss(std::string(100'000, 'f'), kinds), std::nullopt);
  EXPECT_EQ(near_miss("fan-motor", {}), std::nullopt);
}

}  // namespace
}  // namespace ohmwright
