#include <cmath>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "descriptor/descriptor.hpp"
#include "thermostat_fixture.hpp"
#include "thermostat_part.hpp"

// The thermostat's electrical model in a defrost circuit with a mechanical timer, read with an ohmmeter (supply
// unplugged): L–D defrost contact 0.05 Ω, L–R run contact 0.05 Ω (one of them closed), D–X thermostat, X–H1 splice
// 0.05 Ω, H1–H2 heater 32 Ω, H2–N lead 0.05 Ω, L–N timer motor 8000 Ω, R–N compressor 6 Ω and fan 120 Ω. Expected
// values by nodal analysis, equal in two programs (numpy, ngspice); no path is OL.

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

enum Node : std::size_t { L, N, D, R, X, H1, H2, node_count };

struct Branch {
  Node from;
  Node to;
  double ohms;
};

/// Resistance between two nodes, 1 A in and out; nothing where no path joins them.
std::optional<double> resistance(const std::vector<Branch>& branches, Node from, Node to) {
  std::vector<std::vector<double>> g(node_count, std::vector<double>(node_count + 1, 0.0));
  for (const Branch& b : branches) {
    g[b.from][b.from] += 1.0 / b.ohms;
    g[b.to][b.to] += 1.0 / b.ohms;
    g[b.from][b.to] -= 1.0 / b.ohms;
    g[b.to][b.from] -= 1.0 / b.ohms;
  }
  std::vector<bool> reached(node_count, false);
  reached[from] = true;
  for (std::size_t round = 0; round < node_count; ++round)
    for (const Branch& b : branches)
      if (reached[b.from] || reached[b.to]) reached[b.from] = reached[b.to] = true;
  if (!reached[to]) return std::nullopt;
  g[from][node_count] = 1.0;
  for (std::size_t i = 0; i < node_count; ++i) {  // `to` is the reference, as is all that hangs free
    if (i != to && reached[i]) continue;
    for (double& figure : g[i]) figure = 0.0;
    g[i][i] = 1.0;
  }
  for (std::size_t k = 0; k < node_count; ++k) {  // positive definite: no pivoting
    for (std::size_t i = 0; i < node_count; ++i) {
      if (i == k) continue;
      const double factor = g[i][k] / g[k][k];
      for (std::size_t j = k; j <= node_count; ++j) g[i][j] -= factor * g[k][j];
    }
  }
  return g[from][node_count] / g[from][from];
}

/// The circuit with the thermostat of that fault mode, at a temperature.
std::vector<Branch> circuit(std::uint16_t fault_mode, double t, bool timer_in_defrost,
                            bool run_contact_welded = false) {
  ThermostatRatings ratings = plain_ratings();
  ratings.contact_resistance = Resistance::from_value(0.09);  // 0.01 to 0.09 ohm: 0.05 in the middle
  const ConditionValue at{part_temperature, celsius(t).kelvin()};
  std::vector<Element> elements;
  ThermostatPart(ratings).electrical_model(fault_mode, Situation({&at, 1}), elements);
  std::vector<Branch> branches{{X, H1, 0.05},  {H1, H2, 32.0}, {H2, N, 0.05},
                               {L, N, 8000.0}, {R, N, 6.0},    {R, N, 120.0}};
  if (timer_in_defrost) branches.push_back({L, D, 0.05});
  if (!timer_in_defrost || run_contact_welded) branches.push_back({L, R, 0.05});
  for (const Element& element : elements)
    if (element.type == ElementType::contact) branches.push_back({D, X, element.value_in_si});
  return branches;
}

constexpr double relative = 1e-7;

TEST(TimerCircuitOutside, ColdAndHealthy) {
  const auto branches = circuit(not_found, -18, true);
  EXPECT_NEAR(*resistance(branches, D, X), 0.05, 1e-6);  // 0.05 beside 8032 ohm
  EXPECT_NEAR(*resistance(branches, X, N), 31.971715, 31.971715 * relative);
  EXPECT_NEAR(*resistance(branches, D, N), 32.021315, 32.021315 * relative);
}

TEST(TimerCircuitOutside, OpenWarmAndStuckOpenReadAlike) {
  for (const auto& branches : {circuit(not_found, 22, true), circuit(fault_stuck_open, -18, true)}) {
    EXPECT_NEAR(*resistance(branches, D, X), 8032.15, 8032.15 * relative);
    EXPECT_NEAR(*resistance(branches, X, N), 32.1, 32.1 * relative);
    EXPECT_NEAR(*resistance(branches, D, N), 8000.05, 8000.05 * relative);
  }
}

TEST(TimerCircuitOutside, OpenWithAWeldedRunContactLooksLikeTheHeater) {
  const auto branches = circuit(fault_stuck_open, -18, true, true);
  EXPECT_NEAR(*resistance(branches, D, X), 37.910135, 37.910135 * relative);
  EXPECT_NEAR(*resistance(branches, X, N), 32.1, 32.1 * relative);
  EXPECT_NEAR(*resistance(branches, D, N), 5.810135, 5.810135 * 2e-7);
}

TEST(TimerCircuitOutside, InRunPositionAnOpenThermostatIsOverRange) {
  const auto branches = circuit(fault_stuck_open, -18, false);
  EXPECT_FALSE(resistance(branches, D, X));
  EXPECT_FALSE(resistance(branches, D, N));
  const auto healthy = circuit(not_found, -18, false);
  EXPECT_NEAR(*resistance(healthy, D, X), 0.05, 1e-9);
  EXPECT_NEAR(*resistance(healthy, D, N), 32.15, 32.15 * relative);
}

// What the circuit shows is never taken for a closed contact: the readings above, typed in circuit.
TEST(TimerCircuitOutside, NoneOfItIsJudgedClosed) {
  for (const char* value : {"8.032 kohm", "37.9 ohm", "0.05 ohm", "OL"}) {
    const Findings findings =
        judge(plain_ratings(), {{.value = value, .at = "22 degC +- 1 K", .connection = Connection::in_circuit}});
    EXPECT_EQ(outcome_of(findings, in_circuit), Outcome::undecided) << value;
    EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::silent) << value;
  }
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
