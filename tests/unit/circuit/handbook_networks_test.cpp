#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

double between(const Network& network, NodeIndex a, NodeIndex b) {
  const NodePair pair{a, b};
  return Ohmmeter(network, {&pair, 1}).reading(0).value().value();
}

TEST(HandbookNetworks, BalancedBridge) {
  Network bridge;
  for (int i = 0; i < 4; ++i) bridge.add_node();
  bridge.add_branch(0, 1, resistance(ohms(100.0)));
  bridge.add_branch(1, 3, resistance(ohms(200.0)));
  bridge.add_branch(0, 2, resistance(ohms(50.0)));
  bridge.add_branch(2, 3, resistance(ohms(100.0)));
  bridge.add_branch(1, 2, resistance(ohms(7.0)));  // carries nothing
  EXPECT_NEAR(between(bridge, 0, 3), 100.0, 1e-12);
}

TEST(HandbookNetworks, DeltaAsStar) {
  Network delta;
  for (int i = 0; i < 3; ++i) delta.add_node();
  delta.add_branch(0, 1, resistance(ohms(30.0)));
  delta.add_branch(1, 2, resistance(ohms(60.0)));
  delta.add_branch(2, 0, resistance(ohms(10.0)));
  // Star: 30·10/100, 30·60/100, 60·10/100 = 3, 18, 6 (Kennelly's transform).
  EXPECT_NEAR(between(delta, 0, 1), 21.0, 1e-12);
  EXPECT_NEAR(between(delta, 1, 2), 24.0, 1e-12);
  EXPECT_NEAR(between(delta, 2, 0), 9.0, 1e-12);
}

TEST(HandbookNetworks, ALadderOfOnesIsARatioOfFibonacciNumbers) {
  Network ladder;
  NodeIndex rail = ladder.add_node();
  const NodeIndex ground = ladder.add_node();
  const NodeIndex first = rail;
  for (int i = 0; i < 10; ++i) {
    const NodeIndex next = ladder.add_node();
    ladder.add_branch(rail, next, resistance(ohms(1.0)));
    ladder.add_branch(next, ground, resistance(ohms(1.0)));
    rail = next;
  }
  EXPECT_NEAR(between(ladder, first, ground), 10946.0 / 6765.0, 1e-12);  // F21 / F20
}

TEST(HandbookNetworks, ACubeOfEqualResistances) {
  Network cube;
  for (int i = 0; i < 8; ++i) cube.add_node();
  for (NodeIndex a = 0; a < 8; ++a)
    for (NodeIndex bit = 1; bit < 8; bit *= 2)
      if ((a & bit) == 0) cube.add_branch(a, a | bit, resistance(ohms(1.0)));
  EXPECT_NEAR(between(cube, 0, 7), 5.0 / 6.0, 1e-12);
  EXPECT_NEAR(between(cube, 0, 1), 7.0 / 12.0, 1e-12);
  EXPECT_NEAR(between(cube, 0, 3), 3.0 / 4.0, 1e-12);
}

}  // namespace
}  // namespace ohmwright::circuit
