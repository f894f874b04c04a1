#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/units.hpp>

namespace ohmwright::circuit {

using NodeIndex = std::uint32_t;
using BranchIndex = std::uint32_t;

enum class BranchType : std::uint8_t {
  resistance,
  capacitance,
  inductance,
  voltage_source,  ///< ideal; to an ohmmeter it is open, since ohms are read with the supply unplugged
  closed,          ///< joins its two nodes exactly
  open,            ///< nothing: a contact that is open, or a place where a fault may put something
};

/// What a branch is: made by the functions below, so that the value carries its unit.
struct BranchModel {
  BranchType type = BranchType::open;
  double value_in_si = 0.0;      ///< ohm, farad, henry or volt (root mean square); 0 for closed and open
  double phase_in_radian = 0.0;  ///< of a voltage source; all sources of a network have one frequency
};

/// Resistances, capacitances and inductances are finite and above 0: what has none is closed or open.
BranchModel resistance(Resistance value);
BranchModel capacitance(Capacitance value);
BranchModel inductance(Inductance value);
/// A source whose `from` is `value` above its `to`. Two legs of a split supply are two sources, or a phase of pi.
BranchModel voltage_source(Voltage value, double phase_in_radian = 0.0);
BranchModel closed();
BranchModel open();

struct Branch {
  NodeIndex from = 0;
  NodeIndex to = 0;
  BranchModel model;
};

/// One branch that becomes something else: by a fault, by a contact that moves, by a lead that is lifted.
///
/// A fault that puts in what a good part does not have (leakage to the frame) changes a branch that was added `open`.
struct Change {
  BranchIndex branch = 0;
  BranchModel model;
};

/// Where the two probes are: `plus` and `minus` (black, or the one called reference) may be any two nodes.
struct NodePair {
  NodeIndex plus = 0;
  NodeIndex minus = 0;
};

/// Nodes and the branches between them. No node is special: none has to be the ground.
///
/// Meters refer to their network: it must outlive them and stay as it is.
class Network {
 public:
  NodeIndex add_node();
  /// `name` is what a refusal calls the branch. The nodes have been added before; a branch may have both ends on one.
  BranchIndex add_branch(NodeIndex from, NodeIndex to, BranchModel model, std::string name = {});

  std::size_t node_count() const { return node_count_; }
  std::span<const Branch> branches() const { return branches_; }
  std::string_view name(BranchIndex branch) const { return names_[branch]; }

 private:
  std::size_t node_count_ = 0;
  std::vector<Branch> branches_;
  std::vector<std::string> names_;
};

}  // namespace ohmwright::circuit
