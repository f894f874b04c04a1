#include <gtest/gtest.h>

#include "fan_motor_fixture.hpp"

namespace ohmwright::fan_motor {
namespace {

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const FanMotorKind kind;
  const Descriptor& d = kind.descriptor();
  EXPECT_EQ(d.measurands[winding].id, "winding");
  EXPECT_EQ(d.measurands[start_run].id, "start_run");
  EXPECT_EQ(d.measurands[tach].id, "tach");
  EXPECT_EQ(d.measurands[capacitor_current].id, "capacitor_current");
  EXPECT_EQ(d.conditions[watched].id, "watched");
  EXPECT_EQ(d.conditions[coast].id, "coast");
  EXPECT_EQ(d.rules[running].id, "running");
  EXPECT_EQ(d.rules[winding_resistance].id, "winding-resistance");
  EXPECT_EQ(d.rules[open_winding].id, "open");
  EXPECT_EQ(d.rules[short_winding].id, "short");
  EXPECT_EQ(d.rules[in_circuit].id, "in-circuit");
  EXPECT_EQ(d.rules[windings_add_up].id, "windings-add-up");
  EXPECT_EQ(d.rules[not_by_ohms].id, "not-by-ohms");
  EXPECT_EQ(d.rules[line_current].id, "line-current");
  EXPECT_EQ(d.rules[fed_but_still].id, "fed-but-still");
  EXPECT_EQ(d.rules[turns_by_hand].id, "turns-by-hand");
  EXPECT_EQ(d.rules[capacitor].id, "capacitor");
  EXPECT_EQ(d.rules[insulation].id, "insulation");
  EXPECT_EQ(d.rules[matching_class].id, "matching-class");
  EXPECT_EQ(d.rules[supply_volts].id, "supply-volts");
  EXPECT_EQ(d.advice[lift_a_lead].id, "lift-a-lead");
  EXPECT_EQ(d.advice[spin_by_hand].id, "spin-by-hand");
  EXPECT_EQ(d.advice[insulation_tester].id, "insulation-tester");
  EXPECT_EQ(d.advice[replacement].id, "replacement");
  EXPECT_EQ(d.advice[misread_decimal].id, "misread-decimal");
  EXPECT_EQ(d.advice[unplug_it_now].id, "unplug-it-now");
  EXPECT_EQ(d.advice[leave_it_in].id, "leave-it-in");
  EXPECT_EQ(d.advice.size(), capacitor_past_range + 1U);
  EXPECT_EQ(d.fault_modes[fault_blocked_by_ice].id, "blocked-by-ice");
  EXPECT_EQ(d.fault_modes[fault_leaks].id, "leaks-to-frame");
  EXPECT_EQ(d.terminals[frame], "frame");
}

TEST(Descriptor, OnlyItsRunningMustPass) {
  const FanMotorKind kind;
  for (const RuleDescriptor& rule : kind.descriptor().rules) EXPECT_EQ(rule.essential, rule.id == "running") << rule.id;
}

}  // namespace
}  // namespace ohmwright::fan_motor
