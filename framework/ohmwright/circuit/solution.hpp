#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/circuit/branch_state.hpp>
#include <ohmwright/circuit/voltage_tree.hpp>

namespace ohmwright::circuit {

/// A network solved in full: nodal equations in tree voltages, inverted.
///
/// Answers for any two nodes, not fast: `Responses` holds what is asked again and again.
/// Source: C. A. Desoer, E. S. Kuh, Basic Circuit Theory (1969), ch. 11, cut-set analysis; our choice of the tree (from
/// memory).
template <typename Scalar>
class Solution {
 public:
  /// Throws InputError where sources and conductors without resistance form a loop, or where the network resonates
  /// without any loss. `network` lends the names for that. Of joined branches only those of `wanted_currents` can be
  /// asked for their currents: each is one more coordinate.
  Solution(const Network& network, std::span<const BranchState<Scalar>> branches,
           std::span<const BranchIndex> wanted_currents);

  /// Whether no way leads from one probe to the other.
  bool separated(NodePair pair) const { return tree_.separated(pair.plus, pair.minus); }

  /// The way between nodes that are not separated.
  void path(NodePair pair, TreePath& path) const { tree_.path(pair, path); }

  /// The way between the ends of a branch, which are not separated: found once, asked for again and again.
  TreeWay way_of(BranchIndex branch) const {
    const WayPlace& from = way_places_[branch];
    const WayPlace& to = way_places_[branch + 1];
    return {std::span(ways_.unknown).subspan(from.unknown, to.unknown - from.unknown),
            std::span(ways_.known).subspan(from.known, to.known - from.known)};
  }

  std::size_t unknown_count() const { return tree_.unknown_count(); }
  std::size_t known_count() const { return tree_.known_count(); }

  /// Tree voltages (scaled) for 1 A put in at `path.plus` and taken out at its minus; `voltages` has unknown_count().
  void respond(const TreeWay& path, std::span<Scalar> voltages) const;

  /// Voltage [V] along a path when the tree voltages are those of `respond`.
  static Scalar along(const TreeWay& path, std::span<const Scalar> voltages);

  /// Impedance [ohm] that a path sees, sources replaced by conductors.
  Scalar impedance(const TreeWay& path) const;

  /// Voltage [V] along a path with all sources at work, without a meter.
  Scalar voltage(const TreeWay& path) const;

  /// Voltage along a path for 1 V in the known coordinate `known` and 0 V in all other sources [1].
  Scalar transfer(const TreeWay& path, std::size_t known) const;

  /// Whether every current through this coordinate has to come back by itself: nothing goes round it.
  bool is_bridge(std::size_t unknown) const { return covered_[unknown] == 1; }

  /// The known coordinate of a source, or of a joined branch whose current was wanted; none for any other branch.
  std::size_t known_coordinate(BranchIndex branch) const;
  static constexpr std::size_t none = static_cast<std::size_t>(-1);
  BranchIndex branch_of_known(std::size_t known) const { return known_branch_[known]; }

  /// Whether a joined branch lies in a loop of such, where no value says how the current divides.
  bool current_is_undetermined(BranchIndex branch) const;

  /// Current [A] through a known coordinate, from `from` to `to`, given the voltage of every branch.
  Scalar current(std::size_t known, std::span<const Scalar> branch_voltages) const;

 private:
  void grow(const Network& network, std::span<const BranchState<Scalar>> branches,
            std::span<const BranchIndex> wanted_currents);
  void grow_joined(std::span<const BranchState<Scalar>> branches, std::span<const BranchIndex> wanted_currents);
  void find_ways();
  void invert(std::span<const BranchState<Scalar>> branches);

  /// Where a branch's steps begin among those of all.
  struct WayPlace {
    std::size_t unknown = 0;
    std::size_t known = 0;
  };

  VoltageTree tree_;
  std::vector<BranchState<Scalar>> branches_;
  TreePath ways_;                          ///< of all branches, end to end
  std::vector<WayPlace> way_places_;       ///< by branch, and one behind the last
  std::vector<BranchIndex> known_branch_;  ///< by known coordinate
  std::vector<BranchIndex> undetermined_;  ///< joined branches in loops, of those that are wanted
  std::vector<std::size_t> covered_;       ///< by unknown coordinate: admittances across its cut, itself one of them
  std::vector<Scalar> inverse_;            ///< unknown by unknown
  std::vector<Scalar> by_known_;           ///< unknown by known: tree voltages for 1 V in a known coordinate
  std::vector<Scalar> voltages_;           ///< tree voltages with all sources at work
  std::vector<Scalar> known_voltages_;     ///< volt
};

extern template class Solution<double>;
extern template class Solution<std::complex<double>>;

}  // namespace ohmwright::circuit
