#include <algorithm>

#include <gtest/gtest.h>

#include <ohmwright/component/symptom.hpp>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using testing_support::descriptor;

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const Descriptor& d = descriptor();
  EXPECT_EQ(d.measurands[resistance].id, "resistance");
  EXPECT_EQ(d.measurands[resistance_swapped].id, "resistance_swapped");
  EXPECT_EQ(d.measurands[drop].id, "drop");
  EXPECT_EQ(d.measurands[insulation_resistance].id, "insulation");
  EXPECT_EQ(d.conditions[part_temperature].id, "part_temperature");
  EXPECT_EQ(d.conditions[load_current].id, "load_current");
  EXPECT_EQ(d.conditions[test_voltage].id, "test_voltage");
  EXPECT_EQ(d.conditions[lead_length].id, "lead_length");
  EXPECT_EQ(d.states[probes].values[probes_clipped].id, "clipped");
  EXPECT_EQ(d.error_sources[unstated_temperature].id, "unstated-temperature");
  EXPECT_EQ(d.rules[end_to_end].id, "end-to-end");
  EXPECT_EQ(d.rules[open_lead].id, "open");
  EXPECT_EQ(d.rules[drop_under_load].id, "voltage-drop");
  EXPECT_EQ(d.rules[insulation].id, "insulation");
  EXPECT_EQ(d.rules[intermittent].id, "intermittent");
  EXPECT_EQ(d.rules[in_circuit].id, "in-circuit");
  EXPECT_EQ(d.rules[load_rating].id, "load-rating");
  EXPECT_EQ(d.advice[lift_an_end].id, "lift-an-end");
  EXPECT_EQ(d.advice[read_drop].id, "read-drop");
  EXPECT_EQ(d.advice[read_all_of_it].id, "read-all-of-it");
  EXPECT_EQ(d.advice[say_leads].id, "say-leads");
  EXPECT_EQ(d.advice[what_draws].id, "what-draws");
  EXPECT_EQ(d.advice[mend_joint].id, "mend-joint");
  EXPECT_EQ(d.advice[replacement_by_look].id, "replacement-by-look");
  EXPECT_EQ(d.advice.size(), replacement_by_look + 1U);
  EXPECT_EQ(d.fault_modes[fault_open].id, "open");
  EXPECT_EQ(d.fault_modes[fault_high_resistance].id, "high-resistance");
  EXPECT_EQ(d.fault_modes[fault_intermittent].id, "intermittent");
  EXPECT_EQ(d.fault_modes[fault_leaks].id, "leaks-to-frame");
  EXPECT_EQ(d.terminals[frame], "frame");
}

TEST(Descriptor, OnlyTheOhmsFromEndToEndMustPass) {
  for (const RuleDescriptor& rule : descriptor().rules) EXPECT_EQ(rule.essential, rule.id == "end-to-end") << rule.id;
}

TEST(Descriptor, ReadsEachQuantityBetweenTerminals) {
  EXPECT_EQ(descriptor().measurands[resistance].from, end_1);
  EXPECT_EQ(descriptor().measurands[resistance].to, end_2);
  EXPECT_EQ(descriptor().measurands[insulation_resistance].to, frame);
}

TEST(Descriptor, SymptomsAreWordsThatTheFrameworkKnows) {
  for (const FaultModeDescriptor& mode : descriptor().fault_modes) {
    EXPECT_EQ(mode.prior_source, "assumed, no source");
    for (const SymptomEffect& effect : mode.symptoms) EXPECT_TRUE(symptom_named(effect.symptom)) << effect.symptom;
  }
}

TEST(Descriptor, AdviceNamesProceduresThatAreThere) {
  for (const AdviceDescriptor& advice : descriptor().advice)
    if (!advice.procedure.empty()) {
      EXPECT_NE(index_of(descriptor().procedures, advice.procedure), not_found) << advice.id;
    }
}

}  // namespace
}  // namespace ohmwright::wiring
