#include <algorithm>

#include <gtest/gtest.h>

#include <ohmwright/component/symptom.hpp>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using testing_support::descriptor;

TEST(Descriptor, ListsStandInTheOrderOfTheirIndices) {
  const Descriptor& d = descriptor();
  EXPECT_EQ(d.measurands[motor].id, "motor");
  EXPECT_EQ(d.measurands[output_voltage].id, "output");
  EXPECT_EQ(d.measurands[sensor_voltage].id, "sensor_supply");
  EXPECT_EQ(d.measurands[interval_by_clock].id, "interval_by_clock");
  EXPECT_EQ(d.conditions[part_temperature].id, "part_temperature");
  EXPECT_EQ(d.conditions[frequency].id, "frequency");
  EXPECT_EQ(d.conditions[stand_in].id, "stand_in");
  EXPECT_EQ(d.states[position].values[position_defrost].id, "defrost");
  EXPECT_EQ(d.states[moved].values[stood_still].id, "no");
  EXPECT_EQ(d.states[moved].values[shaft_stood_still].id, "not-the-shaft");
  EXPECT_EQ(d.rules[contacts].id, "contacts");
  EXPECT_EQ(d.rules[advance].id, "advance");
  EXPECT_EQ(d.rules[motor_winding].id, "motor-winding");
  EXPECT_EQ(d.rules[contact_drop].id, "contact-drop");
  EXPECT_EQ(d.rules[output].id, "output");
  EXPECT_EQ(d.rules[interval].id, "interval");
  EXPECT_EQ(d.rules[sensor_supply].id, "sensor-supply");
  EXPECT_EQ(d.rules[in_circuit].id, "in-circuit");
  EXPECT_EQ(d.advice[watch_longer].id, "watch-longer");
  EXPECT_EQ(d.advice[before_buying_input].id, "before-buying-input");
  EXPECT_EQ(d.advice[say_ratings].id, "say-ratings");
  EXPECT_EQ(d.advice[watch_the_shaft].id, "watch-the-shaft");
  EXPECT_EQ(d.advice.size(), watch_the_shaft + 1U);
  EXPECT_EQ(d.fault_modes[fault_stuck_in_defrost].id, "stuck-in-defrost");
  EXPECT_EQ(d.fault_modes[fault_sensor_input_dead].id, "sensor-input-dead");
  EXPECT_EQ(d.fault_modes[fault_does_not_move_on].id, "does-not-move-on");
  EXPECT_EQ(d.terminals[terminal_sensor_2], "sensor-2");
  EXPECT_EQ(d.error_sources[motor_temperature_source].id, "motor-temperature");
}

TEST(Descriptor, ContactsAndMovingOnMustPass) {
  for (const RuleDescriptor& rule : descriptor().rules)
    EXPECT_EQ(rule.essential, rule.id == "contacts" || rule.id == "advance") << rule.id;
}

TEST(Descriptor, TheCommandLineSetsItsStates) {
  EXPECT_EQ(descriptor().states[position].option, "position");
  EXPECT_EQ(descriptor().states[moved].option, "moved");
}

TEST(Descriptor, FaultsShowInSymptomsThatTheFrameworkKnows) {
  for (const FaultModeDescriptor& mode : descriptor().fault_modes) {
    EXPECT_EQ(mode.prior_source, "assumed, no source");
    for (const SymptomEffect& effect : mode.symptoms) EXPECT_NE(symptom_named(effect.symptom), nullptr) << mode.id;
  }
}

TEST(Descriptor, WhateverCarriesPowerIsALiveStep) {
  for (const ProcedureDescriptor& procedure : descriptor().procedures) {
    const Dimension dimension =
        descriptor().measurands[index_of(descriptor().measurands, procedure.measurand)].dimension;
    const auto has = [&](std::string_view caution) {
      return std::find(procedure.cautions.begin(), procedure.cautions.end(), caution) != procedure.cautions.end();
    };
    EXPECT_EQ(has("live-measurement"), dimension == Dimension::voltage) << procedure.id;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_control
