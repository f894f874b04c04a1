#include <gtest/gtest.h>

#include "heater_fixture.hpp"

namespace ohmwright::heater {
namespace {

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const HeaterKind kind;
  const Descriptor& d = kind.descriptor();
  EXPECT_EQ(d.measurands[resistance].id, "resistance");
  EXPECT_EQ(d.measurands[terminal_voltage].id, "terminals");
  EXPECT_EQ(d.measurands[insulation_resistance].id, "insulation");
  EXPECT_EQ(d.conditions[line_voltage].id, "line_voltage");
  EXPECT_EQ(d.conditions[test_voltage].id, "test_voltage");
  EXPECT_EQ(d.rules[element_resistance].id, "element-resistance");
  EXPECT_EQ(d.rules[open_element].id, "open");
  EXPECT_EQ(d.rules[short_element].id, "short");
  EXPECT_EQ(d.rules[in_circuit].id, "in-circuit");
  EXPECT_EQ(d.rules[power_under_load].id, "power-under-load");
  EXPECT_EQ(d.rules[supply_without_current].id, "supply-without-current");
  EXPECT_EQ(d.rules[insulation].id, "insulation");
  EXPECT_EQ(d.rules[matching_class].id, "matching-class");
  EXPECT_EQ(d.advice[lift_a_lead].id, "lift-a-lead");
  EXPECT_EQ(d.advice[better_meter].id, "better-meter");
  EXPECT_EQ(d.advice[look_upstream].id, "look-upstream");
  EXPECT_EQ(d.advice[frame_too].id, "frame-too");
  EXPECT_EQ(d.advice[replacement_by_plate].id, "replacement-by-plate");
  EXPECT_EQ(d.advice[misread_decimal].id, "misread-decimal");
  EXPECT_EQ(d.advice[switch_off_now].id, "switch-off-now");
  EXPECT_EQ(d.advice[then_volts_and_amperes].id, "then-volts-and-amperes");
  EXPECT_EQ(d.advice.size(), find_the_joint + 1U);
  EXPECT_EQ(d.fault_modes[fault_opens_hot].id, "opens-hot");
  EXPECT_EQ(d.fault_modes[fault_leaks].id, "leaks-to-frame");
  EXPECT_EQ(d.fault_modes[fault_leaks_in_the_middle].id, "leaks-in-the-middle");
  EXPECT_EQ(d.fault_modes[fault_leaks_at_the_other_end].id, "leaks-at-the-other-end");
  EXPECT_EQ(d.fault_modes.size(), fault_leaks_at_the_other_end + 1U);
  EXPECT_EQ(d.terminals[frame], "frame");
}

TEST(Descriptor, OnlyTheElementItselfMustPass) {
  const HeaterKind kind;
  for (const RuleDescriptor& rule : kind.descriptor().rules)
    EXPECT_EQ(rule.essential, rule.id == "element-resistance") << rule.id;
}

}  // namespace
}  // namespace ohmwright::heater
