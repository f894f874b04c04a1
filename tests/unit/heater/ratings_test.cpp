#include <filesystem>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>

#include "heater_fixture.hpp"
#include "rules/generic_classes.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::HasSubstr;

TEST(Ratings, UnknownWireMakesRoomBelowOnly) {
  const RatedResistance cold = plain().cold();
  EXPECT_NEAR(cold.lower, 32.0 / (1.05 * 1.08), 1e-12);
  EXPECT_EQ(cold.nominal, 32.0);
  EXPECT_NEAR(cold.upper, 32.0 / 0.9, 1e-12);
}

// Alloy makers' tables: NiCr 35/20 gains 18.8 % by 800 °C, more than any other that a heater may have.
TEST(Ratings, KnowingTheWireNeverWidensItsLimits) {
  const auto lower = [](const std::string& alloy) {
    return ratings(R"({"voltage": "120 V", "power": "450 W", "alloy": ")" + alloy + R"("})").cold().lower;
  };
  EXPECT_NEAR(lower("unknown-or-iron"), 32.0 / (1.05 * 1.188), 1e-12);
  for (const char* alloy : {"nicr-80-20", "nicr-60-15", "fecral-25-5"}) EXPECT_GE(lower(alloy), lower("unknown"));
  for (const char* alloy : {"unknown", "nicr-35-20", "fecr-13-4"}) EXPECT_GE(lower(alloy), lower("unknown-or-iron"));
}

TEST(Ratings, StatedOhmsGoBeforeVoltsAndWatts) {
  const RatedResistance cold =
      ratings(R"({"voltage": "120 V", "power": "450 W", "resistance": "31 ohm", "resistance_tolerance": "5 %"})")
          .cold();
  EXPECT_NEAR(cold.lower, 29.45, 1e-12);
  EXPECT_NEAR(cold.upper, 32.55, 1e-12);
}

TEST(Ratings, StatedTolerancesGoBeforeTheUsualOnes) {
  const HeaterRatings read =
      ratings(R"({"voltage": "120 V", "power": "450 W", "power_below": "7 %", "power_above": "3 %"})");
  EXPECT_EQ(read.tolerance.below, 0.07);
  EXPECT_EQ(read.tolerance.above, 0.03);
}

TEST(Ratings, TheEarthClassSetsTheLeastInsulationWhereNoneIsStated) {
  EXPECT_EQ(plain().insulation.value(), 1e6);
  EXPECT_EQ(ratings(R"({"voltage": "230 V", "power": "180 W", "earth_class": "II"})").insulation.value(), 2e6);
  EXPECT_EQ(ratings(R"({"voltage": "24 V", "power": "60 W", "earth_class": "III"})").insulation.value(), 0.25e6);
  EXPECT_EQ(ratings(R"({"voltage": "240 V", "power": "5.2 kW", "earth_class": "I"})").insulation.value(), 0.3e6);
  EXPECT_EQ(ratings(R"({"voltage": "240 V", "power": "5.2 kW"})").insulation.value(), 1e6);  // not said: the stricter
  EXPECT_EQ(ratings(R"({"voltage": "230 V", "power": "180 W", "earth_class": "II", "insulation": "7 Mohm"})")
                .insulation.value(),
            7e6);
}

TEST(Ratings, RefusesWhatCannotBe) {
  const auto refusal = [](const std::string& json) {
    const auto problems = problems_of(json);
    return problems.empty() ? std::string("accepted") : problems.front().pointer + ": " + problems.front().text;
  };
  EXPECT_EQ(refusal(R"({"voltage": "0 V", "power": "450 W"})"), "/voltage: this figure must be above 0");
  EXPECT_EQ(refusal(R"({"voltage": "120 V ± 2 V", "power": "450 W"})"),
            "/voltage: a rating has no ± of its own; how far good parts may be off stands under \"tolerance\"");
  EXPECT_EQ(refusal(R"({"voltage": "120 V", "power": "450 W", "power_below": "120 %"})"),
            "/power_below: a tolerance lies between 0 % and 100 %, both left out, such as \"5 %\"");
  EXPECT_EQ(refusal(R"({"resistance": "32 ohm"})"),
            "/resistance: say how far good parts may be off: \"resistance_tolerance\"");
  EXPECT_EQ(
      refusal(R"({"voltage": "120 V", "power": "450 W", "resistance": "3.2 kohm", "resistance_tolerance": "5 %"})"),
      "/resistance: the cold ohms do not belong to the rated volts and watts (V²/P); one of the three is wrong");
  EXPECT_THAT(refusal(R"({"voltage": "450 W", "power": "120 V"})"), HasSubstr("expected a voltage"));
}

TEST(Ratings, TheClassesOfTheFilesAreThoseOfTheRule) {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(OHMWRIGHT_HEATER_FOLDER "/ratings")) {
    ++files;
    const Document document = read_document(entry.path().string());
    const HeaterKind kind;
    const RatingsDocument read = read_ratings(document, kind.descriptor());
    std::vector<Problem> problems;
    EXPECT_TRUE(kind.make_part(read.ratings, problems)) << entry.path();
    const HeaterRatings figures = *heater::read_ratings(*read.ratings, problems);
    bool found = false;
    for (const GenericClass& generic : generic_classes())
      if (generic.name == read.name) {
        found = true;
        EXPECT_EQ(generic.volt, figures.voltage->value());
        EXPECT_EQ(generic.watt, figures.power->value());
      }
    EXPECT_TRUE(found) << read.name;
  }
  EXPECT_EQ(files, generic_classes().size());
}

}  // namespace
}  // namespace ohmwright::heater
