#include <filesystem>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>

#include "fan_motor_fixture.hpp"

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

constexpr double rpm = 2.0 * std::numbers::pi / 60.0;

TEST(Ratings, WithoutASpeedTheSlipOfItsConstructionCounts) {
  const auto shaded = plain().speed_limits();
  ASSERT_TRUE(shaded);
  EXPECT_NEAR(shaded->lower / rpm, 1440.0, 1e-9);
  EXPECT_NEAR(shaded->upper / rpm, 1800.0, 1e-9);
  const auto run = ratings(R"({"construction": "capacitor-run", "frequency": "50 Hz", "poles": 2})").speed_limits();
  EXPECT_NEAR(run->lower / rpm, 2700.0, 1e-9);
  EXPECT_FALSE(ratings(R"({"construction": "capacitor-run"})").speed_limits());
  const auto stated =
      ratings(R"({"construction": "electronically-commutated", "speed": "2800 rpm", "speed_tolerance": "5 %"})");
  EXPECT_NEAR(stated.speed_limits()->lower / rpm, 2660.0, 1e-9);
}

TEST(Ratings, TheConductorsConstant) {
  EXPECT_EQ(plain().conductor_constant, 234.5);
  EXPECT_EQ(ratings(R"({"construction": "shaded-pole", "conductor": "aluminium"})").conductor_constant, 225.0);
  EXPECT_EQ(ratings(R"({"construction": "shaded-pole", "conductor_constant": 235})").conductor_constant, 235.0);
}

TEST(Ratings, RefusesWhatCannotBe) {
  const auto refusal = [](const std::string& json) {
    const auto problems = problems_of(json);
    return problems.empty() ? std::string("accepted") : problems.front().pointer + ": " + problems.front().text;
  };
  EXPECT_EQ(refusal(R"({"construction": "shaded-pole", "winding": "82 ohm"})"),
            "/winding: say how far good windings may be off: \"winding_tolerance\"");
  EXPECT_EQ(refusal(R"({"construction": "electronically-commutated", "winding": "9 ohm", "winding_tolerance": "7 %"})"),
            "/winding: an electronically commutated motor is never judged by ohms: its leads end in semiconductors");
  EXPECT_EQ(refusal(R"({"construction": "shaded-pole", "poles": 5})"), "/poles: poles come in pairs: 2, 4, 6, 8");
  EXPECT_EQ(refusal(R"({"construction": "shaded-pole", "frequency": "60 Hz", "poles": 4, "speed": "2800 rpm"})"),
            "/speed: faster than its poles and frequency allow (120 f/p); one of the three is wrong");
  EXPECT_EQ(refusal(R"({"construction": "shaded-pole", "current": "0 A"})"), "/current: this figure must be above 0");
}

TEST(Ratings, EveryShippedClassIsRead) {
  for (const auto& entry : std::filesystem::directory_iterator(OHMWRIGHT_FAN_MOTOR_FOLDER "/ratings")) {
    const Document document = read_document(entry.path().string());
    const FanMotorKind kind;
    const RatingsDocument read = read_ratings(document, kind.descriptor());
    std::vector<Problem> problems;
    EXPECT_TRUE(kind.make_part(read.ratings, problems)) << entry.path();
    EXPECT_EQ(read.name, entry.path().stem().string());
  }
}

}  // namespace
}  // namespace ohmwright::fan_motor
