#include <array>

#include <gtest/gtest.h>

#include <ohmwright/thermal/simulated_fault.hpp>

namespace ohmwright::thermal {
namespace {

FaultModeDescriptor mode(std::vector<SymptomEffect> symptoms) {
  return {"a", "a", 1.0, "test", std::move(symptoms), {}};
}

TEST(SimulatedFault, HasANameThatIsReadAgain) {
  for (const SimulatedFault fault : simulated_faults()) EXPECT_EQ(simulated_fault_named(name_of(fault)), fault);
  EXPECT_EQ(simulated_fault_named("no-such"), std::nullopt);
}

TEST(SimulatedFault, FollowsFromTheSymptomsOfAFaultModeAndTheRolesOfItsPart) {
  constexpr std::array<std::string_view, 1> heater{"heats-coil"};
  constexpr std::array<std::string_view, 1> ends{"ends-defrost"};
  EXPECT_EQ(effect_on_log(mode({{"frost-whole-coil", 0.95}}), heater), SimulatedFault::no_heat);
  EXPECT_EQ(effect_on_log(mode({{"frost-whole-coil", 0.9}, {"no-defrost", 0.95}}), ends), SimulatedFault::never_starts);
  EXPECT_EQ(effect_on_log(mode({{"long-defrost", 0.7}}), heater), SimulatedFault::weak_heat);
  EXPECT_EQ(effect_on_log(mode({{"long-defrost", 0.7}}), ends), SimulatedFault::ends_late);
  EXPECT_EQ(effect_on_log(mode({{"short-defrost", 0.7}}), ends), SimulatedFault::ends_early);
  constexpr std::array<std::string_view, 1> fan{"moves-air"};
  constexpr std::array<std::string_view, 2> control{"times-defrost", "ends-defrost"};
  EXPECT_EQ(effect_on_log(mode({{"no-air", 1.0}}), fan), SimulatedFault::fan_stopped);
  EXPECT_EQ(effect_on_log(mode({{"no-air", 1.0}}), {}), std::nullopt);
  EXPECT_EQ(effect_on_log(mode({{"long-defrost", 0.6}, {"warm-cabinet", 0.9}}), control),
            SimulatedFault::stuck_in_defrost);
  EXPECT_EQ(effect_on_log(mode({{"long-defrost", 0.6}, {"compressor-never-stops", 0.6}}), control),
            SimulatedFault::runs_while_heating);
  EXPECT_EQ(effect_on_log(mode({{"shock-from-cabinet", 0.9}}), heater), std::nullopt);
}

}  // namespace
}  // namespace ohmwright::thermal
