#include <algorithm>
#include <cstdio>

#include <gtest/gtest.h>

#include "small_appliance.hpp"
#include "small_world.hpp"
#include "thorough.hpp"
#include "timer_appliance.hpp"

// The steps that the search offers against the best that any could be, on examples small enough to walk every way:
// minutes to be expected until parts are named or nothing is left to read, by dynamic programming (R. Bellman, Dynamic
// Programming, 1957) over every order of measurements and every outcome. Bounds: the project's own aim, at most 10 %
// more on average and 25 % at worst.

namespace ohmwright::locate::testing {
namespace {

std::uint64_t examples() { return ::ohmwright::testing::is_thorough() ? 30 : 10; }

/// With two faults at once, examples of more measurements have too many states to walk.
constexpr std::size_t most_measurements_of_two = 5;

SearchSettings settings_for(const Appliance& appliance) {
  SearchSettings settings;
  settings.steps.allow_live = true;
  settings.steps.least_gain_bits = 1e-6;  // to the end: else an early dead end would be the shortest way
  settings.readings.set_up_missed = settings.readings.temperature_missed = 0.0;
  settings.readings.misread_share = 1e-6;  // outcomes are binned, slips and damp are none of them
  settings.readings.damp_share = 0.0;
  const std::size_t measurements = appliance.test_points.size() * (appliance.set_ups.size() + 1);
  settings.priors.most_faults = measurements <= most_measurements_of_two ? 2 : 1;
  return settings;
}

TEST(OptimalPolicy, IsNearlyReached) {
  double sum = 0.0;
  double worst = 0.0;
  const Meter meter = hand_meter();
  for (std::uint64_t seed = 1; seed <= examples(); ++seed) {
    const Appliance appliance = small_appliance(seed);
    Search search(appliance, meter, site_as_found(appliance), settings_for(appliance));
    SmallWorld world(search);
    const double policy = world.minutes_of_policy();
    const double least = world.least_minutes();
    std::printf(
        "%2d: %zu parts, %2zu measurements, %2zu hypotheses, %5zu states: %5.2f min, at best %5.2f, ratio %.3f\n",
        static_cast<int>(seed), appliance.parts.size(), world.measurements(), world.hypotheses(), world.states(),
        policy, least, policy / least);
    EXPECT_GE(policy, 0.999 * least) << "branches below 1e-4 are not walked";
    sum += policy / least;
    worst = std::max(worst, policy / least);
  }
  const double average = sum / static_cast<double>(examples());
  std::printf("average %.3f, worst %.3f\n", average, worst);
  EXPECT_LE(average, 1.10);
  EXPECT_LE(worst, 1.25);
}

}  // namespace
}  // namespace ohmwright::locate::testing
