#include <gtest/gtest.h>

#include "allocations.hpp"
#include "sensor_fixture.hpp"
#include "sensor_part.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<SensorRatings>& ratings, const std::vector<Typed>& typed) {
  const SensorPart part(ratings);
  const Evidence evidence = evidence_of(typed);
  return testing::allocations_of_judge(part, evidence);
}

TEST(Judge, AllocatesNothing) {
  SensorRatings ratings = plain_ratings();
  Control control;
  control.pull_up = ohm(10000);
  control.bits = 10;
  control.termination_temperature = celsius(10);
  control.termination_tolerance = TemperatureDifference::from_value(2.0);
  ratings.control = control;
  EXPECT_EQ(allocations_of_judge(ratings, {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}}), 0);
  EXPECT_EQ(allocations_of_judge(ratings, {{.value = "11.4 kohm", .at = "23 degC +- 3 K"}}), 0);  // with advice
  EXPECT_EQ(
      allocations_of_judge(ratings, {{.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .repeats = {"33.8 kohm"}},
                                     {.value = "10.0 kohm", .at = "25 degC +- 0.5 K"},
                                     {.value = "60 kohm", .at = "-18 degC +- 1 K", .moisture = Moisture::wet},
                                     {.value = "OL", .range = "600 kohm"},
                                     {.value = "9 kohm", .at = "0 degC +- 1 K", .connection = Connection::in_circuit}}),
      0);
  EXPECT_EQ(allocations_of_judge({}, {{.value = "11 kohm", .at = "23 degC +- 1 K"}}), 0);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
