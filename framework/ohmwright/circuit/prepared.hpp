#pragma once

#include <span>
#include <vector>

#include <ohmwright/circuit/responses.hpp>

namespace ohmwright::circuit {

/// A network as one instrument meets it in one set-up, solved once, with the pairs that will be probed.
template <typename Scalar>
class Prepared {
 public:
  /// `wanted_currents` as of `Solution`.
  Prepared(const Network& network, Feed<Scalar> feed, std::span<const NodePair> pairs, std::span<const Change> changes,
           std::span<const BranchIndex> wanted_currents = {});

  const Network& network() const { return *network_; }
  const Feed<Scalar>& feed() const { return feed_; }
  std::span<const BranchIndex> wanted_currents() const { return wanted_currents_; }
  std::span<const NodePair> pairs() const { return pairs_; }
  std::span<const Branch> branches() const { return branches_; }
  std::span<const BranchState<Scalar>> states() const { return states_; }
  const Solution<Scalar>& solution() const { return solution_; }
  const Responses<Scalar>& responses() const { return responses_; }

 private:
  const Network* network_;
  Feed<Scalar> feed_;
  std::vector<BranchIndex> wanted_currents_;
  std::vector<NodePair> pairs_;
  std::vector<Branch> branches_;  ///< the changes of this set-up made
  std::vector<BranchState<Scalar>> states_;
  Solution<Scalar> solution_;
  Responses<Scalar> responses_;
};

extern template class Prepared<double>;
extern template class Prepared<std::complex<double>>;

}  // namespace ohmwright::circuit
