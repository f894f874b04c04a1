#include <gtest/gtest.h>

#include <ohmwright/circuit/voltmeter.hpp>

#include "ngspice.hpp"

namespace ohmwright::circuit {
namespace {

using testing_support::NgspiceBatch;

/// A conductor that hangs in the air, 120 V beside it, and nothing but a capacitance between them.
Network hanging_conductor(double farad) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  network.add_branch(0, 2, capacitance(Capacitance::from_value(farad)));
  return network;
}

struct Ghost {
  double farad;
  double input_in_ohm;
  double volts;
  double half_digit;
};

// |V| = V·R/√(R² + (1/2πfC)²), computed in closed form; half of the last digit printed.
constexpr Ghost ghosts[] = {{200e-12, 10e6, 72.243968, 0.5e-6},
                            {200e-12, 3e3, 0.027143, 0.5e-6},
                            {50e-12, 10e6, 22.228, 0.5e-3},
                            {1e-9, 10e6, 115.989, 0.5e-3}};

TEST(GhostVoltage, ByClosedFormAndByNgspice) {
  const NodePair probes{2, 1};
  NgspiceBatch batch;
  std::vector<double> ours;
  for (const Ghost& ghost : ghosts) {
    const Network network = hanging_conductor(ghost.farad);
    const Voltmeter voltmeter(network, Frequency::from_value(60.0), Resistance::from_value(ghost.input_in_ohm),
                              {&probes, 1});
    ours.push_back(magnitude(voltmeter.reading(0)).value());
    EXPECT_NEAR(ours.back(), ghost.volts, ghost.half_digit);
    batch.add_volts(network, {}, probes, ghost.input_in_ohm, 60.0);
  }
  const auto answers = batch.run();
  if (!answers) GTEST_SKIP() << "ngspice is not installed";
  for (std::size_t i = 0; i < ours.size(); ++i) {
    const double theirs = std::abs((*answers)[i].value().between_probes);
    EXPECT_NEAR(ours[i], theirs, 1e-9 * theirs);
  }
}

}  // namespace
}  // namespace ohmwright::circuit
