#pragma once

#include <cstddef>
#include <vector>

namespace ohmwright {

/// Points joined by edges, for questions of connection alone: no values. Between source files of this area.
class WiringGraph {
 public:
  explicit WiringGraph(std::size_t points) : edges_at_(points) {}

  /// Joins two points; gives the edge's index. Several edges may join the same two.
  std::size_t join(std::size_t from, std::size_t to);

  std::size_t points() const { return edges_at_.size(); }

  /// By edge: whether it lies on some way from `a` to `b` that passes no point twice. Only such an edge can change what
  /// an instrument shows between the two. All false where no way leads from one to the other, or `a` is `b`.
  std::vector<bool> edges_between(std::size_t a, std::size_t b) const;

  /// By edge: whether it lies on a ring with that one, so that current through the one can pass the other.
  std::vector<bool> edges_on_a_ring_with(std::size_t edge) const;

  bool is_joined(std::size_t a, std::size_t b) const;

 private:
  struct Edge {
    std::size_t from = 0;
    std::size_t to = 0;
  };
  std::vector<bool> block_of(std::size_t edge) const;

  std::vector<Edge> edges_;
  std::vector<std::vector<std::size_t>> edges_at_;  ///< by point
};

}  // namespace ohmwright
