#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

const auto hertz_60 = Frequency::from_value(60.0);

/// Volts on a meter for a conductor that only stray capacitance feeds: |V| = V·R/√(R² + (1/2πfC)²).
double ghost(double farad, double input) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  network.add_branch(0, 2, capacitance(Capacitance::from_value(farad)));
  const NodePair pair{2, 1};
  return magnitude(Voltmeter(network, hertz_60, ohms(input), {&pair, 1}).reading(0)).value();
}

TEST(Voltmeter, ShowsAGhostOnAConductorThatHangsInTheAir) {
  EXPECT_NEAR(ghost(200e-12, 10e6), 72.243968, 1e-6);
  EXPECT_NEAR(ghost(200e-12, 3e3), 0.027143, 1e-6);
  EXPECT_NEAR(ghost(50e-12, 10e6), 22.228, 1e-3);
  EXPECT_NEAR(ghost(1e-9, 10e6), 115.989, 1e-3);
}

TEST(Voltmeter, KnowsWhatIsBehindItsProbes) {
  // By hand: 8 kohm is 8 kohm; 200 pF at 60 Hz is 1/(2πfC) = 13.263 Mohm.
  Network network;
  for (int i = 0; i < 4; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(230.0)));
  network.add_branch(0, 2, resistance(ohms(8e3)));
  network.add_branch(0, 3, capacitance(Capacitance::from_value(200e-12)));
  const std::vector<NodePair> pairs{{2, 1}, {3, 1}};
  const Voltmeter meter(network, hertz_60, ohms(10e6), pairs);
  Voltmeter::Variant variant = meter.with({});
  EXPECT_NEAR(variant.source_impedance(0).value(), 8e3, 1e-6);
  EXPECT_NEAR(variant.source_impedance(1).value(), 13.262912e6, 10.0);
}

TEST(Voltmeter, RefusesToBeNextToAResonance) {
  // L = 1/(ω²C) makes coil and capacitor cancel; a ppm beside it a millionth of the sum is left, and a million volts.
  const double farad = 10e-6;
  const double omega = 2.0 * 3.14159265358979 * 60.0;
  for (const double beside : {1e-6, -1e-6, 1e-9}) {
    Network network;
    for (int i = 0; i < 3; ++i) network.add_node();
    network.add_branch(0, 1, voltage_source(Voltage::from_value(230.0)));
    network.add_branch(0, 2, inductance(Inductance::from_value((1.0 + beside) / (omega * omega * farad))));
    network.add_branch(2, 1, capacitance(Capacitance::from_value(farad)));
    const NodePair pair{2, 1};
    EXPECT_THROW(Voltmeter(network, hertz_60, ohms(10e6), {&pair, 1}), InputError) << beside;
  }
}

TEST(Voltmeter, LoadsADivider) {
  Network divider;
  for (int i = 0; i < 3; ++i) divider.add_node();
  divider.add_branch(0, 1, voltage_source(Voltage::from_value(10.0)));
  divider.add_branch(0, 2, resistance(ohms(1e6)));
  divider.add_branch(2, 1, resistance(ohms(1e6)));
  const NodePair pair{2, 1};
  const auto direct = Frequency::from_value(0.0);
  EXPECT_NEAR(Voltmeter(divider, direct, ohms(10e6), {&pair, 1}).reading(0).value().real(), 10.0 / 2.1, 1e-9);
}

TEST(Voltmeter, TwoLegsOfASupplyAreOneMinusTheOther) {
  Network split;
  for (int i = 0; i < 3; ++i) split.add_node();
  split.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  split.add_branch(1, 2, voltage_source(Voltage::from_value(120.0)));
  split.add_branch(0, 2, resistance(ohms(24.0)));
  const NodePair pair{0, 2};
  EXPECT_NEAR(magnitude(Voltmeter(split, hertz_60, ohms(10e6), {&pair, 1}).reading(0)).value(), 240.0, 1e-9);
}

}  // namespace
}  // namespace ohmwright::circuit
