#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

class Series : public ::testing::Test {
 protected:
  Series() {
    for (int i = 0; i < 4; ++i) network.add_node();
    for (NodeIndex i = 0; i < 3; ++i) network.add_branch(i, i + 1, resistance(ohms(10.0)));
    spare = network.add_branch(0, 3, open());
  }
  Network network;
  BranchIndex spare = 0;
  const NodePair ends{0, 3};
};

TEST_F(Series, AChangedValueALeakAndAShort) {
  const Ohmmeter meter(network, {&ends, 1});
  const auto with = [&](std::vector<Change> changes) { return meter.with(changes).reading(0); };
  EXPECT_NEAR(with({{1, resistance(ohms(25.0))}})->value(), 45.0, 1e-12);
  EXPECT_NEAR(with({{1, closed()}})->value(), 20.0, 1e-12);
  EXPECT_NEAR(with({{spare, resistance(ohms(30.0))}})->value(), 15.0, 1e-12);
  EXPECT_FALSE(with({{1, open()}}));
  EXPECT_NEAR(with({{1, open()}, {spare, resistance(ohms(7.0))}})->value(), 7.0, 1e-12);
  EXPECT_EQ(with({{spare, closed()}})->value(), 0.0);
}

TEST_F(Series, OfTwoChangesOfOneBranchTheLaterCounts) {
  const Ohmmeter meter(network, {&ends, 1});
  const std::vector<Change> changes{{1, open()}, {1, resistance(ohms(20.0))}};
  EXPECT_NEAR(meter.with(changes).reading(0)->value(), 40.0, 1e-12);
}

TEST_F(Series, AMeterPreparedWithChangesIsThatNetwork) {
  const std::vector<Change> lifted{{0, open()}};
  const Ohmmeter meter(network, {&ends, 1}, lifted);
  EXPECT_FALSE(meter.reading(0));
  const std::vector<Change> back{{0, resistance(ohms(10.0))}};
  EXPECT_NEAR(meter.with(back).reading(0)->value(), 30.0, 1e-12);
}

}  // namespace
}  // namespace ohmwright::circuit
