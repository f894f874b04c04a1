#include <complex>

#include <ohmwright/circuit/responses.hpp>

namespace ohmwright::circuit {

template <typename Scalar>
Responses<Scalar>::Responses(const Solution<Scalar>& solution, std::span<const BranchState<Scalar>> branches,
                             std::span<const NodePair> pairs)
    : branch_count_(branches.size()),
      transfers_((pairs.size() + branches.size()) * branches.size()),
      impedances_(pairs.size()),
      voltages_(pairs.size() + branches.size()),
      separated_(pairs.size()) {
  const std::size_t unknowns = solution.unknown_count();
  std::vector<Scalar> to_branch(unknowns * branch_count_);  // tree voltages for 1 A at each branch, a column a branch
  std::vector<Scalar> answer(unknowns);
  TreePath path;
  for (std::size_t b = 0; b < branch_count_; ++b) {
    const NodePair ends{branches[b].from, branches[b].to};
    if (solution.separated(ends)) continue;
    solution.path(ends, path);
    solution.respond(path, answer);
    for (std::size_t k = 0; k < unknowns; ++k) to_branch[k * branch_count_ + b] = answer[k];
  }
  const auto fill_row = [&](std::size_t row, NodePair ends) {
    solution.path(ends, path);
    voltages_[row] = solution.voltage(path);
    Scalar* const transfers = transfers_.data() + row * branch_count_;
    for (const TreePath::Step& step : path.unknown) {
      const Scalar* const voltages = to_branch.data() + step.coordinate * branch_count_;
      for (std::size_t b = 0; b < branch_count_; ++b) transfers[b] += step.weight * voltages[b];
    }
  };
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    separated_[p] = solution.separated(pairs[p]) ? 1 : 0;
    if (separated_[p] != 0) continue;
    fill_row(p, pairs[p]);
    impedances_[p] = solution.impedance(path);
  }
  for (std::size_t b = 0; b < branch_count_; ++b) {
    const NodePair ends{branches[b].from, branches[b].to};
    if (!solution.separated(ends)) fill_row(pairs.size() + b, ends);
  }
}

template class Responses<double>;
template class Responses<std::complex<double>>;

}  // namespace ohmwright::circuit
