#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::locate {

/// Which branches a current between two nodes can pass at all: those on some way from one to the other that takes no
/// node twice. Whatever the others are, they change nothing between these nodes.
///
/// `joined` are branches that are one point for good (leads in place, an ideal supply, whose two sides keep their
/// voltage whatever hangs on them); `conducting` those that may conduct. The result has one place a branch of the
/// network. Blocks of a graph: J. Hopcroft, R. Tarjan, Algorithm 447, Comm. ACM 16 (1973), 372 (from memory).
std::vector<bool> branches_between(const circuit::Network& network, std::span<const circuit::BranchIndex> joined,
                                   std::span<const circuit::BranchIndex> conducting, circuit::NodePair nodes);

}  // namespace ohmwright::locate
