#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/variation.hpp>
#include <ohmwright/circuit/voltmeter.hpp>

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

/// Which way a variant is solved.
class WayOfSolving : public ::testing::Test {
 protected:
  // 0-1 and 2-3 hang on a ring 1-2-1; 4 is apart.
  WayOfSolving() {
    for (int i = 0; i < 5; ++i) network.add_node();
    bridge = network.add_branch(0, 1, resistance(ohms(5.0)));
    ring = network.add_branch(1, 2, resistance(ohms(10.0)));
    other_half = network.add_branch(1, 2, resistance(ohms(1e9)));
    network.add_branch(2, 3, resistance(ohms(7.0)));
    round_the_bridge = network.add_branch(0, 2, open());
    to_the_part_apart = network.add_branch(0, 4, open());
  }
  bool corrected(std::vector<Change> changes) const {
    const NodePair pair{0, 3};
    const Prepared<double> prepared(network, {}, {&pair, 1}, {});
    return Variation<double>(prepared, changes).update() != nullptr;
  }
  Network network;
  BranchIndex bridge = 0;
  BranchIndex ring = 0;
  BranchIndex other_half = 0;
  BranchIndex round_the_bridge = 0;
  BranchIndex to_the_part_apart = 0;
};

TEST_F(WayOfSolving, ACorrectionWhereItKeepsItsDigits) {
  EXPECT_TRUE(corrected({}));
  EXPECT_TRUE(corrected({{ring, resistance(ohms(12.0))}}));
  EXPECT_TRUE(corrected({{ring, closed()}}));
  EXPECT_TRUE(corrected({{other_half, open()}}));
  EXPECT_TRUE(corrected({{bridge, open()}}));
  EXPECT_TRUE(corrected({{bridge, open()}, {ring, closed()}}));
  EXPECT_TRUE(corrected({{round_the_bridge, resistance(ohms(3.0))}}));
}

TEST_F(WayOfSolving, ElseTheWholeNetwork) {
  EXPECT_FALSE(corrected({{ring, open()}}));  // nine digits of the 1 Gohm that is left
  EXPECT_FALSE(corrected({{ring, open()}, {other_half, open()}}));
  EXPECT_FALSE(corrected({{bridge, open()}, {round_the_bridge, resistance(ohms(3.0))}}));
  EXPECT_FALSE(corrected({{to_the_part_apart, resistance(ohms(3.0))}}));
}

TEST_F(WayOfSolving, GivesTheSame) {
  const NodePair pairs[] = {{0, 3}, {1, 2}, {0, 4}};
  const Ohmmeter meter(network, pairs);
  const auto with = [&](std::vector<Change> changes, std::size_t pair) { return meter.with(changes).reading(pair); };
  EXPECT_NEAR(with({{ring, open()}}, 1)->value(), 1e9, 1e-3);
  EXPECT_FALSE(with({{bridge, open()}}, 0));
  EXPECT_NEAR(with({{bridge, open()}}, 1)->value(), 10.0 * (1.0 - 1e-8), 1e-12);  // 10 ohm beside 1 Gohm
  EXPECT_FALSE(with({{bridge, open()}, {ring, closed()}}, 0));
  EXPECT_EQ(with({{bridge, open()}, {ring, closed()}}, 1)->value(), 0.0);
  EXPECT_NEAR(with({{to_the_part_apart, resistance(ohms(3.0))}}, 2)->value(), 3.0, 1e-12);
}

TEST_F(WayOfSolving, MoreChangesThanACorrectionTakes) {
  std::vector<Change> many;
  for (int i = 0; i < 9; ++i) many.push_back({ring, resistance(ohms(10.0 + i))});
  const NodePair pair{0, 3};
  const Ohmmeter meter(network, {&pair, 1});
  EXPECT_NEAR(meter.with(many).reading(0)->value(), 5.0 + 18.0 * (1.0 - 1.8e-8) + 7.0, 1e-9);
}

TEST(Voltmeter, ReadsNothingAcrossPartsThatNothingConnects) {
  Network network;
  for (int i = 0; i < 4; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  const BranchIndex lead = network.add_branch(1, 2, resistance(ohms(0.05)));
  network.add_branch(2, 3, resistance(ohms(32.0)));
  const NodePair pair{0, 3};
  const Voltmeter meter(network, Frequency::from_value(60.0), ohms(10e6), {&pair, 1});
  EXPECT_NEAR(magnitude(meter.reading(0)).value(), 120.0, 1e-3);
  const std::vector<Change> lifted{{lead, open()}};
  EXPECT_EQ(magnitude(meter.with(lifted).reading(0)).value(), 0.0);
}

}  // namespace
}  // namespace ohmwright::circuit
