#include <gtest/gtest.h>

#include "allocations.hpp"
#include "thermostat_fixture.hpp"
#include "thermostat_part.hpp"

// `judge` must allocate nothing once its findings have grown.

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

long allocations_of_judge(const std::optional<ThermostatRatings>& ratings, const std::vector<Reading>& readings) {
  const ThermostatPart part(ratings);
  const Evidence evidence(descriptor(), readings, basic_meter());
  return testing::allocations_of_judge(part, evidence);
}

TEST(Judge, AllocatesNothing) {
  ThermostatRatings ratings = ratings_with_link(4);
  ratings.differential = Differential{kelvin(18), kelvin(4)};
  ratings.rated_current = Current::from_value(10);
  EXPECT_EQ(allocations_of_judge(ratings, readings_of({{.value = "OL", .at = "22 degC +- 1 K"}})), 0);
  EXPECT_EQ(allocations_of_judge(ratings, readings_of({{.value = "closed", .at = "22 degC +- 1 K"}})), 0);
  std::vector<Step> cycles;
  for (int i = 0; i < 10; ++i)
    cycles.insert(cycles.end(), {{'C', 12.5 + 0.1 * i}, {'O', 13.3 + 0.1 * i}, {'O', -4}, {'C', -4.8}});
  EXPECT_EQ(allocations_of_judge(ratings, series(cycles)), 0);
  EXPECT_EQ(allocations_of_judge({}, series(cycles)), 0);
  EXPECT_EQ(allocations_of_judge(ratings, series({{'C', 15.0}, {'O', 15.9}, {'O', -4}, {'C', -5}}, 1.0)), 0);
  EXPECT_EQ(
      allocations_of_judge(
          ratings, readings_of({{.value = "0.5 ohm", .at = "-18 degC +- 1 K"},
                                {.value = "8 kohm", .at = "22 degC +- 1 K", .connection = Connection::in_circuit},
                                {.value = "OL", .measurand = "link"},
                                {.value = "0.7 V", .supply = Supply::live, .measurand = "drop", .load = "3.75 A"}})),
      0);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
