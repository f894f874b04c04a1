#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

TEST(Connectivity, NoWayIsOverRangeAndAJoinIsZero) {
  Network two_parts;
  for (int i = 0; i < 5; ++i) two_parts.add_node();
  two_parts.add_branch(0, 1, resistance(ohms(10.0)));
  two_parts.add_branch(1, 2, closed());
  two_parts.add_branch(3, 4, resistance(ohms(5.0)));
  const NodePair pairs[] = {{0, 3}, {1, 2}, {0, 2}, {4, 3}};
  const Ohmmeter meter(two_parts, pairs);
  EXPECT_FALSE(meter.reading(0));
  EXPECT_EQ(meter.reading(1)->value(), 0.0);
  EXPECT_NEAR(meter.reading(2)->value(), 10.0, 1e-12);
  EXPECT_NEAR(meter.reading(3)->value(), 5.0, 1e-12);
}

TEST(Connectivity, AnOhmmeterWaitsForReactancesAndKnowsNoSource) {
  Network network;
  for (int i = 0; i < 4; ++i) network.add_node();
  network.add_branch(0, 1, capacitance(Capacitance::from_value(1e-6)));
  network.add_branch(1, 2, inductance(Inductance::from_value(1.0)));
  network.add_branch(2, 3, voltage_source(Voltage::from_value(120.0)));
  const NodePair pairs[] = {{0, 1}, {1, 2}, {2, 3}};
  const Ohmmeter meter(network, pairs);
  EXPECT_FALSE(meter.reading(0));
  EXPECT_EQ(meter.reading(1)->value(), 0.0);
  EXPECT_FALSE(meter.reading(2));
}

}  // namespace
}  // namespace ohmwright::circuit
