#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
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

/// The same, kept elsewhere.
struct TreeWay {
  std::span<const TreePath::Step> unknown;
  std::span<const TreePath::Step> known;

  TreeWay(std::span<const TreePath::Step> of_unknown, std::span<const TreePath::Step> of_known)
      : unknown(of_unknown), known(of_known) {}
  /// Not explicit: a path is a way.
  TreeWay(const TreePath& path) : unknown(path.unknown), known(path.known) {}
};

/// A forest over the nodes of a network whose branch voltages are the unknowns of the nodal equations.
///
/// The voltage of a node is the sum of the tree voltages on the way to it. Voltages along an arm of small resistances
/// are then unknowns themselves and not differences of large node voltages: 0.05 ohm beside 50 Mohm keeps its digits.
class VoltageTree {
 public:
  explicit VoltageTree(std::size_t node_count);

  /// Whether no branch added so far leads from one to the other.
  bool separated(NodeIndex a, NodeIndex b) const { return part_of(a) != part_of(b); }

  /// Three ways to add a branch between separated parts: without voltage, with a given one, with an unknown one.
  void join(NodeIndex from, NodeIndex to);
  void add_known(NodeIndex from, NodeIndex to);
  void add_unknown(NodeIndex from, NodeIndex to, double scale);

  /// Once nothing is added any more: ways are found without going up to the root.
  void finish();

  std::size_t unknown_count() const { return unknown_count_; }
  std::size_t known_count() const { return known_count_; }

  /// The way from `minus` to `plus`, which are not separated. `path` is overwritten and keeps its memory.
  void path(NodePair pair, TreePath& path) const;

 private:
  enum class Form : std::uint8_t { joined, known, unknown };
  /// The branch of the tree between a node and the one above it; of a root the node itself stands above.
  struct Link {
    NodeIndex parent = 0;
    Form form = Form::joined;
    std::uint32_t coordinate = 0;
    double weight = 0.0;  ///< of the coordinate in the node's voltage less its parent's
  };

  std::uint32_t part_of(std::uint32_t node) const {
    while (part_[node] != node) node = part_[node];
    return node;
  }
  void merge(NodeIndex from, NodeIndex to, Link above);
  std::size_t links_to_root(NodeIndex node) const;

  std::size_t unknown_count_ = 0;
  std::size_t known_count_ = 0;
  /// By node: another of its part, nearer to the one by which the part is known. Smaller parts are hung below larger
  /// ones, so that no way there is longer than the logarithm of the nodes; of a finished tree it is one step.
  std::vector<std::uint32_t> part_;
  std::vector<std::uint32_t> nodes_of_part_;  ///< by the node by which a part is known
  std::vector<Link> up_;                      ///< by node
  std::vector<std::uint32_t> depth_;          ///< by node, of a finished tree: links to its root
};

}  // namespace ohmwright::circuit
