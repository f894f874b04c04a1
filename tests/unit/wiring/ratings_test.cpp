#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::HasSubstr;

const Temperature room = Temperature::from_celsius(20.0);

TEST(Ratings, ALeadHasItsCopperAndItsContacts) {
  EXPECT_NEAR(lead().most(1.0, room), 0.02 + 0.1, 1e-12);
  EXPECT_NEAR(lead().least(1.0, room), 1.0 / 58.0 + 0.001, 1e-12);
  EXPECT_NEAR(splice().most(0.0, room), 0.1, 1e-12);
}

TEST(Ratings, WhatIsNotStatedIsTheMostFavourableCopper) {
  const WiringRatings unstated = lead();
  EXPECT_EQ(unstated.conductor->metal, Metal::tinned_copper);
  EXPECT_EQ(unstated.conductor->stranding, Stranding::flexible);
}

TEST(Ratings, ADropAtTheRatedCurrentIsALimitOfOhms) {
  EXPECT_NEAR(ratings(R"({"form": "connector", "voltage_drop": "30 mV", "rated_current": "10 A"})").most(0, room), 3e-3,
              1e-12);
  const std::string both =
      R"({"form": "connector", "voltage_drop": "30 mV", "rated_current": "10 A", "contact_resistance": )";
  EXPECT_NEAR(ratings(both + R"("1 mohm"})").most(0, room), 1e-3, 1e-12);  // the stricter of the two
  EXPECT_NEAR(ratings(both + R"("1 ohm"})").most(0, room), 3e-3, 1e-12);
}

TEST(Ratings, TheEarthClassSetsTheLeastInsulationWhereNoneIsStated) {
  EXPECT_EQ(splice().insulation.value(), 1e6);
  const std::string base = R"({"form": "splice", "contact_resistance": "0.1 ohm", )";
  EXPECT_EQ(ratings(base + R"("earth_class": "II"})").insulation.value(), 2e6);
  EXPECT_EQ(ratings(base + R"("earth_class": "III"})").insulation.value(), 0.25e6);
  EXPECT_EQ(ratings(base + R"("earth_class": "II", "insulation": "7 Mohm"})").insulation.value(), 7e6);
}

TEST(Ratings, RefusesWhatCannotBe) {
  const auto refusal = [](const std::string& json) {
    const auto problems = problems_of(json);
    return problems.empty() ? std::string("accepted") : problems.front().pointer + ": " + problems.front().text;
  };
  EXPECT_EQ(refusal(R"({"form": "lead", "contact_resistance": "0.1 ohm"})"),
            ": a lead needs its \"cross_section\", such as \"1\" (mm²)");
  EXPECT_EQ(refusal(R"({"form": "splice", "contact_resistance": "0.1 ohm", "length": "1 m"})"),
            "/length: a length says nothing without a \"cross_section\"");
  EXPECT_EQ(refusal(R"({"form": "splice", "contact_resistance": "0.1 ohm", "voltage_drop": "30 mV"})"),
            "/voltage_drop: a drop means nothing without the current at which it holds: \"rated_current\"");
  EXPECT_EQ(refusal(R"({"form": "splice", "contact_resistance": "0 ohm"})"),
            "/contact_resistance: this figure must be above 0");
  EXPECT_THAT(refusal(R"({"form": "splice", "contact_resistance": "0.1 V"})"), HasSubstr("expected a resistance"));
  EXPECT_THAT(refusal(R"({"form": "lead", "cross_section": "1", "length": "1 ohm", "contact_resistance": "0.1 ohm"})"),
              HasSubstr("expected a length"));
}

TEST(Ratings, TheFilesGiveParts) {
  std::size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(OHMWRIGHT_WIRING_FOLDER "/ratings")) {
    ++files;
    const Document document = read_document(entry.path().string());
    const WiringKind kind;
    const RatingsDocument read = read_ratings(document, kind.descriptor());
    std::vector<Problem> problems;
    EXPECT_TRUE(kind.make_part(read.ratings, problems)) << entry.path();
  }
  EXPECT_EQ(files, 4U);
}

}  // namespace
}  // namespace ohmwright::wiring
