#include <algorithm>
#include <cassert>
#include <numeric>
#include <utility>

#include <ohmwright/circuit/voltage_tree.hpp>

namespace ohmwright::circuit {

VoltageTree::VoltageTree(std::size_t node_count) : part_(node_count), nodes_of_part_(node_count, 1), up_(node_count) {
  std::iota(part_.begin(), part_.end(), std::uint32_t{0});
  for (std::size_t node = 0; node < node_count; ++node) up_[node].parent = static_cast<NodeIndex>(node);
}

void VoltageTree::join(NodeIndex from, NodeIndex to) { merge(from, to, {from, Form::joined, 0, 0.0}); }

void VoltageTree::add_known(NodeIndex from, NodeIndex to) {
  merge(from, to, {from, Form::known, static_cast<std::uint32_t>(known_count_++), -1.0});
}

void VoltageTree::add_unknown(NodeIndex from, NodeIndex to, double scale) {
  merge(from, to, {from, Form::unknown, static_cast<std::uint32_t>(unknown_count_++), -scale});
}

// The part of `to` is hung below `from`, by `to` itself: the ways up from there to its old root turn round.
void VoltageTree::merge(NodeIndex from, NodeIndex to, Link above) {
  assert(separated(from, to));
  std::uint32_t stays = part_of(from);
  std::uint32_t goes = part_of(to);
  if (nodes_of_part_[stays] < nodes_of_part_[goes]) std::swap(stays, goes);
  NodeIndex node = to;
  for (bool is_root = false; !is_root;) {
    const Link old = std::exchange(up_[node], above);
    is_root = old.parent == node;
    above = {node, old.form, old.coordinate, -old.weight};
    node = old.parent;
  }
  part_[goes] = stays;
  nodes_of_part_[stays] += nodes_of_part_[goes];
}

std::size_t VoltageTree::links_to_root(NodeIndex node) const {
  if (!depth_.empty()) return depth_[node];
  std::size_t links = 0;
  for (; up_[node].parent != node; node = up_[node].parent) ++links;
  return links;
}

void VoltageTree::finish() {
  for (std::size_t node = 0; node < part_.size(); ++node) part_[node] = part_of(static_cast<std::uint32_t>(node));
  constexpr auto not_yet = static_cast<std::uint32_t>(-1);
  std::vector<std::uint32_t> depth(up_.size(), not_yet);
  std::vector<NodeIndex> below;  // nodes on the way up to one whose depth is known
  for (std::size_t start = 0; start < up_.size(); ++start) {
    auto node = static_cast<NodeIndex>(start);
    for (; depth[node] == not_yet && up_[node].parent != node; node = up_[node].parent) below.push_back(node);
    if (depth[node] == not_yet) depth[node] = 0;
    for (std::uint32_t at = depth[node]; !below.empty(); below.pop_back()) depth[below.back()] = ++at;
  }
  depth_ = std::move(depth);
}

void VoltageTree::path(NodePair pair, TreePath& path) const {
  assert(!separated(pair.plus, pair.minus));
  path.unknown.clear();
  path.known.clear();
  const auto climb = [&](NodeIndex& node, double sign) {
    const Link& link = up_[node];
    if (link.form != Form::joined)
      (link.form == Form::unknown ? path.unknown : path.known).push_back({link.coordinate, sign * link.weight});
    node = link.parent;
  };
  NodeIndex plus = pair.plus;
  NodeIndex minus = pair.minus;
  std::size_t below_plus = links_to_root(plus);
  std::size_t below_minus = links_to_root(minus);
  for (; below_plus > below_minus; --below_plus) climb(plus, 1.0);
  for (; below_minus > below_plus; --below_minus) climb(minus, -1.0);
  while (plus != minus) {
    climb(plus, 1.0);
    climb(minus, -1.0);
  }
  const auto by_coordinate = [](const TreePath::Step& a, const TreePath::Step& b) {
    return a.coordinate < b.coordinate;
  };
  std::sort(path.unknown.begin(), path.unknown.end(), by_coordinate);
  std::sort(path.known.begin(), path.known.end(), by_coordinate);
}

}  // namespace ohmwright::circuit
