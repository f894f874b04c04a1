#include <algorithm>
#include <numeric>

#include <ohmwright/locate/reach.hpp>

namespace ohmwright::locate {

namespace {

struct Edge {
  std::size_t from = 0;
  std::size_t to = 0;
  std::size_t branch = 0;
};

/// The block that holds the first edge, found by walking the graph in depth from its ends.
class BlockOfFirstEdge {
 public:
  BlockOfFirstEdge(std::size_t node_count, std::span<const Edge> edges)
      : edges_(edges), at_(node_count), depth_(node_count, 0), low_(node_count, 0) {
    for (std::size_t i = 0; i < edges.size(); ++i) {
      at_[edges[i].from].push_back(i);
      at_[edges[i].to].push_back(i);
    }
    open_.push_back(0);
    depth_[edges[0].from] = 1;
    low_[edges[0].from] = 1;
    walk(edges[0].to, 0, 2);
    // Whatever has not been closed as a block of its own belongs to the first edge's.
    block_ = std::move(open_);
  }

  std::span<const std::size_t> edges() const { return block_; }

 private:
  void walk(std::size_t node, std::size_t came_by, std::size_t depth) {
    depth_[node] = depth;
    low_[node] = depth;
    for (const std::size_t edge : at_[node]) {
      if (edge == came_by) continue;
      const std::size_t next = edges_[edge].from == node ? edges_[edge].to : edges_[edge].from;
      if (depth_[next] == 0) {
        const std::size_t begin = open_.size();
        open_.push_back(edge);
        walk(next, edge, depth + 1);
        if (low_[next] >= depth)
          open_.resize(begin);  // a block behind this node
        else
          low_[node] = std::min(low_[node], low_[next]);
      } else if (depth_[next] < depth) {
        open_.push_back(edge);
        low_[node] = std::min(low_[node], depth_[next]);
      }
    }
  }

  std::span<const Edge> edges_;
  std::vector<std::vector<std::size_t>> at_;
  std::vector<std::size_t> depth_;  ///< 0: not seen
  std::vector<std::size_t> low_;
  std::vector<std::size_t> open_;
  std::vector<std::size_t> block_;
};

}  // namespace

std::vector<bool> branches_between(const circuit::Network& network, std::span<const circuit::BranchIndex> joined,
                                   std::span<const circuit::BranchIndex> conducting, circuit::NodePair nodes) {
  std::vector<std::size_t> point(network.node_count());
  std::iota(point.begin(), point.end(), std::size_t{0});
  const auto root = [&](std::size_t node) {
    while (point[node] != node) node = point[node] = point[point[node]];
    return node;
  };
  for (const circuit::BranchIndex branch : joined)
    point[root(network.branches()[branch].from)] = root(network.branches()[branch].to);
  std::vector<bool> between(network.branches().size(), false);
  std::vector<Edge> edges{{root(nodes.plus), root(nodes.minus), network.branches().size()}};
  if (edges.front().from == edges.front().to) return between;
  for (const circuit::BranchIndex branch : conducting) {
    const Edge edge{root(network.branches()[branch].from), root(network.branches()[branch].to), branch};
    if (edge.from != edge.to) edges.push_back(edge);
  }
  const BlockOfFirstEdge block(network.node_count(), edges);
  for (const std::size_t edge : block.edges())
    if (edge > 0) between[edges[edge].branch] = true;
  return between;
}

}  // namespace ohmwright::locate
