// What the program has no part in: gas, and the high voltage of a microwave oven (common practice, no source).

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/verdict/refused_work.hpp>

namespace ohmwright {
namespace {

using ::testing::HasSubstr;

TEST(RefusedWork, IsTheGasSide) {
  for (const char* name : {"gas-valve", "Coil of the gas valve", "Gas Valves", "opens-gas-valve", "LPG regulator",
                           "Pipe of the gas", "burner of a gas oven", "Burner solenoid", "Solenoid of the fuel valve",
                           "Booster coil and holding coil of the burner", "LP regulator coil", "Flame safety solenoid",
                           "Bobina de la válvula de gas", "VÁLVULA DE GAS", "Gasventil", "Vanne de gaz"})
    EXPECT_THAT(refused_work(name), HasSubstr("licensed hands")) << name;
}

TEST(RefusedWork, IsTheHighVoltageSideOfAMicrowaveOven) {
  for (const char* name : {"magnetron", "High-voltage capacitor", "microwave transformer", "HV diode", "HV_diodes",
                           "Step-up transformer, 2 kV winding", "Magnetrón", "Condensador de alta tensión"})
    EXPECT_THAT(refused_work(name), HasSubstr("can kill, also when it is unplugged")) << name;
}

TEST(RefusedWork, IsNotWhatStandsBesideIt) {
  for (const char* name : {"Hot-surface igniter, electrical side", "oven igniter", "gas oven", "water valve", "valve",
                           "gasket", "Door switch of a microwave oven", "high limit", "Run capacitor", "line voltage",
                           "burner of a hob", "válvula de agua", "pilot lamp", ""})
    EXPECT_EQ(refused_work(name), "") << name;
}

}  // namespace
}  // namespace ohmwright
