#include <algorithm>
#include <cassert>
#include <complex>

#include <ohmwright/circuit/variation.hpp>

namespace ohmwright::circuit {

template <typename Scalar>
Variation<Scalar>::Variation(const Prepared<Scalar>& prepared, std::span<const Change> changes) : prepared_(&prepared) {
  if (changes.size() > most_kept) {
    solve_anew(changes);
    return;
  }
  for (const Change& change : changes) {
    assert(change.branch < prepared.branches().size());
    std::size_t place = 0;  // of two changes of one branch the later one counts
    while (place < change_count_ && states_[place].branch != change.branch) ++place;
    if (place == change_count_) ++change_count_;
    Branch branch = prepared.branches()[change.branch];
    branch.model = change.model;
    models_[place] = change.model;
    states_[place] = {change.branch, prepared.states()[change.branch], prepared.feed().state(branch)};
  }
  const auto update =
      low_rank_update<Scalar>(prepared.solution(), prepared.responses(), std::span(states_).first(change_count_));
  if (update) {
    update_ = *update;
  } else {
    solve();
  }
}

template <typename Scalar>
void Variation<Scalar>::solve_anew(std::span<const Change> changes) {
  std::vector<Branch> branches(prepared_->branches().begin(), prepared_->branches().end());
  std::vector<BranchState<Scalar>> states(prepared_->states().begin(), prepared_->states().end());
  for (const Change& change : changes) {
    assert(change.branch < branches.size());
    branches[change.branch].model = change.model;
    states[change.branch] = prepared_->feed().state(branches[change.branch]);
  }
  Solution<Scalar> solution(prepared_->network(), states, prepared_->wanted_currents());
  solved_ = std::make_unique<Solved>(Solved{std::move(branches), std::move(states), std::move(solution), {}});
}

template <typename Scalar>
const Solution<Scalar>& Variation<Scalar>::solve() {
  if (!solved_) {
    std::array<Change, most_kept> changes;
    for (std::size_t i = 0; i < change_count_; ++i) changes[i] = {states_[i].branch, models_[i]};
    solve_anew(std::span(changes).first(change_count_));
  }
  return solved_->solution;
}

template <typename Scalar>
const ChangedState<Scalar>* Variation<Scalar>::changed(BranchIndex branch) const {
  const auto end = states_.begin() + static_cast<std::ptrdiff_t>(change_count_);
  const auto found = std::find_if(states_.begin(), end, [&](const auto& state) { return state.branch == branch; });
  return found == end ? nullptr : &*found;
}

template <typename Scalar>
const BranchModel& Variation<Scalar>::model(BranchIndex branch) const {
  if (solved_) return solved_->branches[branch].model;
  const ChangedState<Scalar>* const change = changed(branch);
  return change != nullptr ? models_[static_cast<std::size_t>(change - states_.data())]
                           : prepared_->branches()[branch].model;
}

template <typename Scalar>
BranchState<Scalar> Variation<Scalar>::state(BranchIndex branch) const {
  if (solved_) return solved_->states[branch];
  const ChangedState<Scalar>* const change = changed(branch);
  return change != nullptr ? change->becomes : prepared_->states()[branch];
}

template <typename Scalar>
void Variation<Scalar>::transfers(NodePair pair, std::span<Scalar> to_branches, std::span<Scalar> to_sources) const {
  const Solution<Scalar>& now = solution();
  const std::size_t branch_count = prepared_->branches().size();
  std::vector<Scalar> answer(now.unknown_count());
  TreePath path;
  now.path(pair, path);
  now.respond(path, answer);
  std::fill(to_branches.begin(), to_branches.end(), Scalar{});
  std::fill(to_sources.begin(), to_sources.end(), Scalar{});
  for (std::size_t b = 0; b < branch_count; ++b) {
    to_branches[b] = Solution<Scalar>::along(now.way_of(static_cast<BranchIndex>(b)), answer);
  }
  for (std::size_t known = 0; known < now.known_count(); ++known)
    to_sources[now.branch_of_known(known)] = now.transfer(path, known);
  if (solved_ || update_.count == 0) return;

  // What the changed branches now carry for each of those currents and voltages comes off.
  const Responses<Scalar>& responses = prepared_->responses();
  const auto gains = update_.currents(to_branches.data());
  for (std::size_t b = 0; b < branch_count; ++b)
    for (std::size_t i = 0; i < update_.count; ++i)
      to_branches[b] -= gains[i] * responses.to_branches(responses.row_of(update_.branch[i]))[b];
  for (std::size_t i = 0; i < update_.count; ++i) {
    const TreeWay ends = now.way_of(update_.branch[i]);
    for (std::size_t known = 0; known < now.known_count(); ++known)
      to_sources[now.branch_of_known(known)] -= gains[i] * now.transfer(ends, known);
  }
}

template <typename Scalar>
void Variation<Scalar>::branch_voltages(std::span<Scalar> voltages) const {
  const std::size_t branch_count = prepared_->branches().size();
  if (solved_) {
    for (std::size_t b = 0; b < branch_count; ++b)
      voltages[b] = solved_->solution.voltage(solved_->solution.way_of(static_cast<BranchIndex>(b)));
    return;
  }
  const Responses<Scalar>& responses = prepared_->responses();
  for (std::size_t b = 0; b < branch_count; ++b) {
    const std::size_t row = responses.row_of(static_cast<BranchIndex>(b));
    voltages[b] = responses.voltage(row);
    for (std::size_t i = 0; i < update_.count; ++i)
      voltages[b] -= responses.to_branches(row)[update_.branch[i]] * update_.current[i];
  }
}

template class Variation<double>;
template class Variation<std::complex<double>>;

}  // namespace ohmwright::circuit
