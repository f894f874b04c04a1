#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit {

/// The way between two nodes along the tree: which tree voltages add up to the voltage between them.
struct TreePath {
  struct Step {
    std::uint32_t coordinate;
    double weight;
  };
  std::vector<Step> unknown;  ///< coordinates of admittances, each with its scale and sign
  std::vector<Step> known;    ///< coordinates of sources (and of conductors whose current is wanted), weight +1 or -1
};

/// A forest over the nodes of a network whose branch voltages are the unknowns of the nodal equations.
///
/// The voltage of a node is the sum of the tree voltages on the way to it. Voltages along an arm of small resistances
/// are then unknowns themselves and not differences of large node voltages: 0.05 ohm beside 50 Mohm keeps its digits.
class VoltageTree {
 public:
  explicit VoltageTree(std::size_t node_count);

  /// Whether no branch added so far leads from one to the other.
  bool separated(NodeIndex a, NodeIndex b) const { return part_[a] != part_[b]; }

  /// Three ways to add a branch between separated parts: without voltage, with a given one, with an unknown one.
  void join(NodeIndex from, NodeIndex to);
  void add_known(NodeIndex from, NodeIndex to);
  void add_unknown(NodeIndex from, NodeIndex to, double scale);

  std::size_t unknown_count() const { return unknown_count_; }
  std::size_t known_count() const { return known_count_; }

  /// The way from `minus` to `plus`, which are not separated. `path` is overwritten and keeps its memory.
  void path(NodePair pair, TreePath& path) const;

 private:
  void merge(NodeIndex from, NodeIndex to, double* new_coordinate_of_row, double scale);

  std::size_t node_count_;
  std::size_t unknown_count_ = 0;
  std::size_t known_count_ = 0;
  std::vector<std::uint32_t> part_;  ///< label of the part that a node belongs to
  std::vector<double> unknown_;      ///< node by coordinate, row length node_count_
  std::vector<double> known_;        ///< the same for given voltages
  std::vector<double> shift_;        ///< a row of a merge, kept for its memory
};

}  // namespace ohmwright::circuit
