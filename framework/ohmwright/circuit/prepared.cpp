#include <cassert>
#include <complex>

#include <ohmwright/circuit/prepared.hpp>

namespace ohmwright::circuit {
namespace {

std::vector<Branch> changed(std::span<const Branch> branches, std::span<const Change> changes) {
  std::vector<Branch> result(branches.begin(), branches.end());
  for (const Change& change : changes) {
    assert(change.branch < result.size());
    result[change.branch].model = change.model;
  }
  return result;
}

template <typename Scalar>
std::vector<BranchState<Scalar>> states_of(std::span<const Branch> branches, const Feed<Scalar>& feed) {
  std::vector<BranchState<Scalar>> states;
  states.reserve(branches.size());
  for (const Branch& branch : branches) states.push_back(feed.state(branch));
  return states;
}

}  // namespace

template <typename Scalar>
Prepared<Scalar>::Prepared(const Network& network, Feed<Scalar> feed, std::span<const NodePair> pairs,
                           std::span<const Change> changes, std::span<const BranchIndex> wanted_currents)
    : network_(&network),
      feed_(feed),
      wanted_currents_(wanted_currents.begin(), wanted_currents.end()),
      pairs_(pairs.begin(), pairs.end()),
      branches_(changed(network.branches(), changes)),
      states_(states_of<Scalar>(branches_, feed)),
      solution_(network, states_, wanted_currents),
      responses_(solution_, states_, pairs_) {}

template class Prepared<double>;
template class Prepared<std::complex<double>>;

}  // namespace ohmwright::circuit
