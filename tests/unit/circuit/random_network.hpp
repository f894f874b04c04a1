#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit::testing_support {

enum class Shape { tangle, ladder, bridge, two_parts };

/// What may stand in a random network beside resistances.
struct Ingredients {
  bool reactances = false;
  bool sources = false;
  bool conductors = true;
  bool phases = true;       ///< of sources
  double least_ohm = 0.01;  ///< resistances are spread evenly in their logarithm
  double most_ohm = 1e8;
  double least_farad = 1e-10;
};

/// The same seed gives the same networks with every library: the generator is the standard's, the transforms are ours.
class RandomNetworks {
 public:
  explicit RandomNetworks(std::uint64_t seed) : generator_(seed) {}

  Network network(Shape shape, const Ingredients& ingredients);
  /// One to `most` changes: opened, closed, drifted, shorted turns, leaking.
  std::vector<Change> changes(const Network& network, const Ingredients& ingredients, std::size_t most);
  NodePair pair(const Network& network);

  std::size_t below(std::size_t count) { return static_cast<std::size_t>(generator_() % count); }
  double between(double least, double most);

 private:
  BranchModel passive(const Ingredients& ingredients);
  void add(Network& network, NodeIndex from, NodeIndex to, const Ingredients& ingredients);

  std::mt19937_64 generator_;
  std::vector<NodeIndex> ideal_;  ///< by node: label of what sources and conductors join, so that they form no loop
};

}  // namespace ohmwright::circuit::testing_support
