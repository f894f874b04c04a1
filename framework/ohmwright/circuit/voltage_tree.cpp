#include <cassert>
#include <numeric>

#include <ohmwright/circuit/voltage_tree.hpp>

namespace ohmwright::circuit {

// A tree has at most one branch less than nodes, so rows of node_count_ hold every coordinate.
VoltageTree::VoltageTree(std::size_t node_count)
    : node_count_(node_count),
      part_(node_count),
      unknown_(node_count * node_count, 0.0),
      known_(node_count * node_count, 0.0),
      shift_(node_count) {
  std::iota(part_.begin(), part_.end(), std::uint32_t{0});
}

void VoltageTree::join(NodeIndex from, NodeIndex to) { merge(from, to, nullptr, 0.0); }

void VoltageTree::add_known(NodeIndex from, NodeIndex to) { merge(from, to, known_.data() + known_count_++, 1.0); }

void VoltageTree::add_unknown(NodeIndex from, NodeIndex to, double scale) {
  merge(from, to, unknown_.data() + unknown_count_++, scale);
}

// Voltages are counted from a node of each part. Those of `to`'s part are now counted from that of `from`'s. Rows hold
// zeros and plus or minus a coordinate's scale, so the sums are exact.
void VoltageTree::merge(NodeIndex from, NodeIndex to, double* new_coordinate_of_row, double scale) {
  assert(separated(from, to));
  const std::uint32_t stays = part_[from];
  const std::uint32_t goes = part_[to];
  const auto shift = [&](std::vector<double>& rows, std::size_t count) {
    for (std::size_t k = 0; k < count; ++k) shift_[k] = rows[from * node_count_ + k] - rows[to * node_count_ + k];
    for (std::size_t node = 0; node < node_count_; ++node) {
      if (part_[node] != goes) continue;
      for (std::size_t k = 0; k < count; ++k) rows[node * node_count_ + k] += shift_[k];
    }
  };
  shift(unknown_, unknown_count_);
  shift(known_, known_count_);
  for (std::size_t node = 0; node < node_count_; ++node) {
    if (part_[node] != goes) continue;
    part_[node] = stays;
    if (new_coordinate_of_row != nullptr) new_coordinate_of_row[node * node_count_] = -scale;
  }
}

void VoltageTree::path(NodePair pair, TreePath& path) const {
  assert(!separated(pair.plus, pair.minus));
  const auto collect = [&](const std::vector<double>& rows, std::size_t count, std::vector<TreePath::Step>& steps) {
    steps.clear();
    const double* plus = rows.data() + pair.plus * node_count_;
    const double* minus = rows.data() + pair.minus * node_count_;
    for (std::size_t k = 0; k < count; ++k)
      if (plus[k] != minus[k]) steps.push_back({static_cast<std::uint32_t>(k), plus[k] - minus[k]});
  };
  collect(unknown_, unknown_count_, path.unknown);
  collect(known_, known_count_, path.known);
}

}  // namespace ohmwright::circuit
