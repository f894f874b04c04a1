#include <algorithm>

#include <ohmwright/appliance/wiring_graph.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t not_visited = 0;

}  // namespace

std::size_t WiringGraph::join(std::size_t from, std::size_t to) {
  edges_.push_back({from, to});
  edges_at_[from].push_back(edges_.size() - 1);
  if (to != from) edges_at_[to].push_back(edges_.size() - 1);
  return edges_.size() - 1;
}

/// The biconnected component that holds the edge, found by a depth-first search from one of its ends with the edges
/// passed on a stack.
/// Source: J. Hopcroft, R. Tarjan, Algorithm 447: efficient algorithms for graph manipulation, Comm. ACM 16 (1973).
std::vector<bool> WiringGraph::block_of(std::size_t edge) const {
  struct Visit {
    std::size_t point;
    std::size_t by_edge;
    std::size_t next = 0;  ///< place in the point's list of edges
  };
  std::vector<bool> block(edges_.size(), false);
  std::vector<std::size_t> number(points(), not_visited);
  std::vector<std::size_t> lowest(points(), not_visited);
  std::vector<std::size_t> passed;
  std::vector<bool> is_passed(edges_.size(), false);
  std::size_t count = 0;
  std::vector<Visit> visits{{edges_[edge].from, edges_.size()}};
  number[visits.back().point] = lowest[visits.back().point] = ++count;
  while (!visits.empty()) {
    Visit& visit = visits.back();
    const std::size_t point = visit.point;
    if (visit.next < edges_at_[point].size()) {
      const std::size_t along = edges_at_[point][visit.next++];
      if (is_passed[along]) continue;
      is_passed[along] = true;
      passed.push_back(along);
      const std::size_t other = edges_[along].from == point ? edges_[along].to : edges_[along].from;
      if (number[other] != not_visited) {
        lowest[point] = std::min(lowest[point], number[other]);
        continue;
      }
      number[other] = lowest[other] = ++count;
      visits.push_back({other, along});
      continue;
    }
    const std::size_t by_edge = visit.by_edge;
    visits.pop_back();
    if (visits.empty()) break;
    const std::size_t before = visits.back().point;
    lowest[before] = std::min(lowest[before], lowest[point]);
    if (lowest[point] < number[before]) continue;
    const auto first = std::find(passed.begin(), passed.end(), by_edge);  // a block ends here: these edges
    const bool holds_it = std::find(first, passed.end(), edge) != passed.end();
    if (holds_it) std::for_each(first, passed.end(), [&](std::size_t one) { block[one] = true; });
    passed.erase(first, passed.end());
    if (holds_it) break;
  }
  return block;
}

std::vector<bool> WiringGraph::edges_between(std::size_t a, std::size_t b) const {
  WiringGraph with_probes(*this);
  std::vector<bool> between = with_probes.block_of(with_probes.join(a, b));
  between.pop_back();  // the instrument itself
  if (a == b) between.assign(edges_.size(), false);
  return between;
}

std::vector<bool> WiringGraph::edges_on_a_ring_with(std::size_t edge) const {
  std::vector<bool> ring = block_of(edge);
  if (std::count(ring.begin(), ring.end(), true) < 2) ring[edge] = false;  // a way that leads nowhere
  return ring;
}

bool WiringGraph::is_joined(std::size_t a, std::size_t b) const {
  if (a == b) return true;
  const std::vector<bool> between = edges_between(a, b);
  return std::find(between.begin(), between.end(), true) != between.end();
}

}  // namespace ohmwright
