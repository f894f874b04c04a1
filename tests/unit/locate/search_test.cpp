// What a search keeps of its readings, and what it believes of very many.

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/locate/search.hpp>
#include <ohmwright/quantity/error.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

TakenReading ohms(const Measurement& measurement, double value) {
  return {measurement,
          StatedValue{AnyQuantity(Dimension::resistance, value), {}, *Unit::named("ohm", Dimension::resistance)},
          {}};
}

class Searches : public ::testing::Test {
 protected:
  Searches() {
    ohmwright::SetUp cooled;
    cooled.id = "cooled";
    cooled.cools_down = true;
    appliance.set_ups.push_back(cooled);
  }

  Measurement at(const char* id, bool has_cooled = false) const {
    Measurement measurement{test_point_named(appliance, id), {}};
    if (has_cooled) measurement.set_up = appliance.set_ups.size() - 1;
    return measurement;
  }

  /// What is weighed of the readings, in ohms.
  static std::vector<double> weighed(const Search& search) {
    std::vector<double> values;
    for (const TakenReading& reading : search.readings())
      values.push_back(std::get<StatedValue>(reading.observed).value.value_in_si());
    return values;
  }

  Appliance appliance = timer_appliance();
  Meter meter = hand_meter();
};

TEST_F(Searches, TakeBackTheLastReadingWhateverStandsForAnother) {
  Search search(appliance, meter, site_as_found(appliance), {});
  search.add(ohms(at("H1-H2"), 40.0));
  search.add(ohms(at("D-X"), 0.1));
  search.add(ohms(at("H1-H2", true), 32.0));
  EXPECT_THAT(weighed(search), ElementsAre(0.1, 32.0)) << "one that has cooled stands for it as found";
  EXPECT_TRUE(search.take_back());
  EXPECT_THAT(weighed(search), ElementsAre(40.0, 0.1));
  EXPECT_TRUE(search.take_back());
  EXPECT_THAT(weighed(search), ElementsAre(40.0)) << "the last one, not the one that came back";
}

TEST_F(Searches, KeepAWarmReadingAsideWhileOneThatHasCooledIsThere) {
  Search search(appliance, meter, site_as_found(appliance), {});
  search.add(ohms(at("H1-H2"), 40.0));
  search.add(ohms(at("H1-H2", true), 32.0));
  search.add(ohms(at("H1-H2", true), 32.1));
  EXPECT_TRUE(search.take_back());
  EXPECT_THAT(weighed(search), ElementsAre(32.0));
  EXPECT_TRUE(search.take_back());
  EXPECT_THAT(weighed(search), ElementsAre(40.0));
  EXPECT_TRUE(search.take_back());
  EXPECT_FALSE(search.take_back());
}

/// Their likelihoods have a product that no number holds.
TEST_F(Searches, WeighHundredsOfReadingsThatContradictEachOther) {
  Search search(appliance, meter, site_as_found(appliance), {});
  for (int i = 0; i < 400; ++i) search.add(ohms(at("H1-H2"), 5.0 * std::pow(1.03, i)));
  search.think();
  double sum = 0.0;
  for (const double probability : search.diagnosis().candidates) sum += probability;
  EXPECT_NEAR(sum, 1.0, 1e-9);
  for (const double misread : search.diagnosis().misread) {
    EXPECT_GE(misread, 0.0);  // a number, at that
    EXPECT_LE(misread, 1.0 + 1e-9);
  }
}

TEST_F(Searches, WeighTheSameReadingTakenHundredsOfTimes) {
  Search search(appliance, meter, site_as_found(appliance), {});
  for (int i = 0; i < 1000; ++i) search.add(ohms(at("H1-H2"), 3e6));
  search.think();
  for (const double misread : search.diagnosis().misread) EXPECT_GE(misread, 0.0);
}

TEST_F(Searches, RefuseMoreFaultsAtOnceThanThereIsRoomFor) {
  PlacedPart part = appliance.parts[part_named(appliance, "heater")];
  for (int i = 0; i < 200; ++i) {
    part.id = "heater-" + std::to_string(i);
    appliance.parts.push_back(part);
  }
  PriorSettings settings;
  settings.most_faults = 3;
  try {
    const FaultList faults(appliance, settings);
    FAIL() << faults.candidates().size() << " candidates";
  } catch (const InputError& error) {
    EXPECT_THAT(error.what(), HasSubstr("3 of them at once are more than can be told apart; say fewer at once"));
  }
}

}  // namespace
}  // namespace ohmwright::locate
