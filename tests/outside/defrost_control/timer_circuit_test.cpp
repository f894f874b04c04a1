#include <array>
#include <optional>

#include <gtest/gtest.h>

#include <ohmwright/circuit/network.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>

#include "control_fixture.hpp"
#include "part/electrical_model.hpp"

// The timer's electrical model in a defrost circuit, read with an ohmmeter (supply unplugged): L–D defrost contact 0.05
// Ω, L–R run contact 0.05 Ω, L–N timer motor 8000 Ω (these three are the model's), D–X thermostat 0.05 Ω or open, X–H1
// splice 0.05 Ω, H1–H2 heater 32 Ω, H2–N lead 0.05 Ω, R–N compressor 6 Ω and fan 120 Ω. Expected values by nodal
// analysis, equal in two programs (numpy, ngspice); no path is OL. Tolerance: half of the last digit.

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

/// Nodes in the order of the terminals line, neutral, defrost, run, and what lies between.
enum Node : circuit::NodeIndex { L, N, D, R, X, H1, H2, node_count };

circuit::BranchModel ohms_of(double value) { return circuit::resistance(Resistance::from_value(value)); }

/// What the ohmmeter shows; nothing is OL.
std::optional<double> reading(std::uint16_t fault, std::uint16_t at, bool thermostat_closed, Node from, Node to) {
  const ControlRatings timer = ratings(R"({"type": "cam-timer", "contact_resistance": "0.09 ohm",
                                           "motor_least": "7.9 kohm", "motor_most": "8.1 kohm"})");
  Situation situation;
  situation.states.push_back({position, at});
  std::vector<Element> elements;
  EXPECT_EQ(append_model(&timer, fault, situation, elements), ModelAnswer::stated);

  circuit::Network network;
  for (std::size_t i = 0; i < node_count; ++i) network.add_node();
  for (const Element& element : elements) {
    if (element.type == ElementType::open) continue;
    network.add_branch(element.from, element.to, ohms_of(element.value_in_si), "timer");
  }
  if (thermostat_closed) network.add_branch(D, X, ohms_of(0.05), "thermostat");
  network.add_branch(X, H1, ohms_of(0.05), "splice");
  network.add_branch(H1, H2, ohms_of(32.0), "heater");
  network.add_branch(H2, N, ohms_of(0.05), "lead");
  network.add_branch(R, N, ohms_of(6.0), "compressor");
  network.add_branch(R, N, ohms_of(120.0), "fan");
  const std::array<circuit::NodePair, 1> pair{{{from, to}}};
  const circuit::Ohmmeter meter(network, pair);
  const std::optional<Resistance> shown = meter.reading(0);
  return shown ? std::optional(shown->value()) : std::nullopt;
}

void expect_reading(std::uint16_t fault, std::uint16_t at, Node from, Node to, double expected, double half_digit,
                    bool thermostat_closed = true) {
  const std::optional<double> shown = reading(fault, at, thermostat_closed, from, to);
  ASSERT_TRUE(shown);
  EXPECT_NEAR(*shown, expected, half_digit);
}

TEST(TimerCircuitOutside, HealthyInDefrost) {
  expect_reading(not_found, position_defrost, L, D, 0.05, 5e-7);
  expect_reading(not_found, position_defrost, L, N, 32.070915, 5e-7);
  expect_reading(not_found, position_defrost, D, N, 32.021315, 5e-7);
  expect_reading(not_found, position_defrost, L, N, 8000.0, 5e-7, false);
}

TEST(TimerCircuitOutside, HealthyInRun) {
  expect_reading(not_found, position_run, L, D, 37.910135, 5e-7);
  expect_reading(not_found, position_run, L, N, 5.760135, 5e-7);
  expect_reading(not_found, position_run, R, N, 5.710207, 5e-7);
  EXPECT_FALSE(reading(not_found, position_run, false, L, D));
}

TEST(TimerCircuitOutside, DefrostContactOpen) {
  expect_reading(fault_defrost_contact_open, position_defrost, L, D, 8032.15, 5e-7);
  expect_reading(fault_defrost_contact_open, position_defrost, L, N, 8000.0, 5e-7);
  expect_reading(fault_defrost_contact_open, position_defrost, D, N, 32.15, 5e-7);
}

TEST(TimerCircuitOutside, RunContactWelded) {
  expect_reading(fault_run_contact_welded, position_defrost, L, N, 4.886083, 5e-7);
  expect_reading(fault_run_contact_welded, position_defrost, D, N, 4.920843, 5e-7);
  expect_reading(fault_run_contact_welded, position_defrost, L, D, 0.049934, 5e-7);
  expect_reading(fault_run_contact_welded, position_defrost, L, N, 5.760135, 5e-7, false);
}

TEST(TimerCircuitOutside, MotorOpen) {
  expect_reading(fault_motor_open, position_defrost, L, N, 32.2, 5e-7);
  EXPECT_FALSE(reading(fault_motor_open, position_defrost, false, L, N));
}

TEST(TimerCircuitOutside, StuckInRunReadsAsRunWhateverItIsSetTo) {
  expect_reading(fault_stuck_in_run, position_defrost, L, D, 37.910135, 5e-7);
  expect_reading(fault_stuck_in_run, position_defrost, L, N, 5.760135, 5e-7);
  expect_reading(fault_stuck_in_defrost, position_run, L, N, 32.070915, 5e-7);
}

}  // namespace
}  // namespace ohmwright::defrost_control
