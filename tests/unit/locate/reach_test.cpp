#include <algorithm>

#include <gtest/gtest.h>

#include <ohmwright/locate/reach.hpp>

// Which branches lie on a way between two nodes, on graphs that can be followed with a finger.

namespace ohmwright::locate {
namespace {

class Reach : public ::testing::Test {
 protected:
  Reach() {
    for (int i = 0; i < 8; ++i) network.add_node();
  }
  circuit::BranchIndex branch(circuit::NodeIndex from, circuit::NodeIndex to) {
    all.push_back(network.add_branch(from, to, circuit::resistance(Resistance::from_value(1.0))));
    return all.back();
  }
  std::vector<bool> between(circuit::NodeIndex plus, circuit::NodeIndex minus,
                            const std::vector<circuit::BranchIndex>& joined = {}) const {
    std::vector<circuit::BranchIndex> conducting;
    for (const circuit::BranchIndex one : all)
      if (std::find(joined.begin(), joined.end(), one) == joined.end()) conducting.push_back(one);
    return branches_between(network, joined, conducting, {plus, minus});
  }

  circuit::Network network;
  std::vector<circuit::BranchIndex> all;
};

TEST_F(Reach, TakesTheChainAndLeavesItsTailsAndWhatHangsOnThem) {
  branch(0, 1);
  branch(1, 2);
  branch(1, 3);  // a tail
  branch(3, 4);  // with a ring at its end
  branch(4, 5);
  branch(5, 3);
  EXPECT_EQ(between(0, 2), (std::vector<bool>{true, true, false, false, false, false}));
}

TEST_F(Reach, TakesAllOfABridgeCircuit) {
  branch(0, 1);
  branch(0, 2);
  branch(1, 2);
  branch(1, 3);
  branch(2, 3);
  EXPECT_EQ(between(0, 3), std::vector<bool>(5, true));
  EXPECT_EQ(between(1, 2), std::vector<bool>(5, true));
}

TEST_F(Reach, PassesTwoRingsThatShareANodeOneAfterTheOther) {
  branch(0, 1);
  branch(1, 2);
  branch(2, 0);
  branch(2, 3);
  branch(3, 4);
  branch(4, 2);
  EXPECT_EQ(between(0, 3), std::vector<bool>(6, true));
  EXPECT_EQ(between(0, 1), (std::vector<bool>{true, true, true, false, false, false}));
}

TEST_F(Reach, TakesWhatIsJoinedForOnePoint) {
  const circuit::BranchIndex supply = branch(0, 3);
  branch(0, 1);
  branch(1, 3);
  branch(0, 2);
  branch(2, 3);
  EXPECT_EQ(between(1, 3, {supply}), (std::vector<bool>{false, true, true, false, false}));
  EXPECT_EQ(between(0, 3, {supply}), std::vector<bool>(5, false));
}

TEST_F(Reach, FindsNothingBetweenWhatIsApart) {
  branch(0, 1);
  branch(2, 3);
  EXPECT_EQ(between(0, 3), std::vector<bool>(2, false));
  EXPECT_EQ(between(6, 7), std::vector<bool>(2, false));
}

}  // namespace
}  // namespace ohmwright::locate
