#include <algorithm>
#include <cmath>
#include <complex>
#include <utility>

#include <ohmwright/circuit/update.hpp>

namespace ohmwright::circuit {
namespace {

template <typename Scalar>
using Square = std::array<Scalar, Update<Scalar>::most_changes * Update<Scalar>::most_changes>;

/// Solves matrix·x = right sides in place (Gauss, pivots by row) and gives the product of the pivots, at most about 1
/// as all entries are: what is left of 1 where the changes cancel. 0 where that is too little to keep digits.
template <typename Scalar>
double solve_small(Square<Scalar>& matrix, Square<Scalar>& right_sides, std::size_t count) {
  constexpr std::size_t row = Update<Scalar>::most_changes;
  double kept = 1.0;
  for (std::size_t k = 0; k < count; ++k) {
    std::size_t pivot = k;
    for (std::size_t i = k + 1; i < count; ++i)
      if (std::abs(matrix[i * row + k]) > std::abs(matrix[pivot * row + k])) pivot = i;
    kept *= std::min(1.0, std::abs(matrix[pivot * row + k]));
    if (!(kept >= least_share_kept)) return 0.0;  // also for what is not a number
    if (pivot != k) {
      for (std::size_t j = 0; j < count; ++j) {
        std::swap(matrix[k * row + j], matrix[pivot * row + j]);
        std::swap(right_sides[k * row + j], right_sides[pivot * row + j]);
      }
    }
    const Scalar inverse = 1.0 / matrix[k * row + k];
    for (std::size_t i = 0; i < count; ++i) {
      if (i == k) continue;
      const Scalar factor = matrix[i * row + k] * inverse;
      for (std::size_t j = k; j < count; ++j) matrix[i * row + j] -= factor * matrix[k * row + j];
      for (std::size_t j = 0; j < count; ++j) right_sides[i * row + j] -= factor * right_sides[k * row + j];
    }
    for (std::size_t j = k; j < count; ++j) matrix[k * row + j] *= inverse;
    for (std::size_t j = 0; j < count; ++j) right_sides[k * row + j] *= inverse;
  }
  return kept;
}

/// Whether a branch is an admittance of the tree that nothing goes round.
template <typename Scalar>
bool is_bridge(const Solution<Scalar>& solution, const BranchState<Scalar>& branch) {
  if (branch.conduct != Conduct::admittance) return false;
  TreePath path;
  solution.path({branch.from, branch.to}, path);
  return path.unknown.size() == 1 && path.known.empty() && solution.is_bridge(path.unknown.front().coordinate);
}

}  // namespace

template <typename Scalar>
std::optional<Update<Scalar>> low_rank_update(const Solution<Scalar>& solution, const Responses<Scalar>& responses,
                                              std::span<const ChangedState<Scalar>> changes) {
  constexpr std::size_t row = Update<Scalar>::most_changes;
  Update<Scalar> update;
  std::array<const ChangedState<Scalar>*, row> changed{};
  for (const ChangedState<Scalar>& change : changes) {
    const bool was_there = change.was.conduct == Conduct::admittance;
    if (change.was.conduct == change.becomes.conduct && change.was.value == change.becomes.value) continue;
    if (!was_there && change.was.conduct != Conduct::absent) return std::nullopt;
    if (change.becomes.conduct == Conduct::source) return std::nullopt;
    if (!was_there && solution.separated({change.was.from, change.was.to})) return std::nullopt;
    if (change.becomes.conduct == Conduct::absent && is_bridge(solution, change.was)) {
      if (update.cut_count == row) return std::nullopt;
      update.cut[update.cut_count++] = change.branch;
      continue;
    }
    if (update.count == row) return std::nullopt;
    changed[update.count] = &change;
    update.branch[update.count++] = change.branch;
  }
  for (std::size_t i = 0; i < update.count; ++i)  // what goes round a removed bridge makes it none
    if (update.cuts(responses.to_branches(responses.row_of(update.branch[i])))) return std::nullopt;

  // In units of what each branch sees, so that no entry is large: (1 + δρ)·current = δ·voltage, each row over 1 + |δ|;
  // a branch that becomes closed has no δ but the voltage 0.
  std::array<double, row> unit{};
  for (std::size_t i = 0; i < update.count; ++i) {
    const double seen = std::abs(responses.to_branches(responses.row_of(update.branch[i]))[update.branch[i]]);
    unit[i] = seen > 0.0 ? std::sqrt(seen) : 1.0;
  }
  Square<Scalar> matrix{};
  Square<Scalar> gain{};
  for (std::size_t i = 0; i < update.count; ++i) {
    const Scalar* const transfers = responses.to_branches(responses.row_of(update.branch[i]));
    const bool closes = changed[i]->becomes.conduct == Conduct::joined;
    const Scalar more =
        closes ? Scalar{1.0} : (changed[i]->becomes.value - changed[i]->was.value) * (unit[i] * unit[i]);
    const double share = closes ? 1.0 : 1.0 / (1.0 + std::abs(more));
    for (std::size_t j = 0; j < update.count; ++j)
      matrix[i * row + j] = share * more * transfers[update.branch[j]] / (unit[i] * unit[j]);
    if (!closes) matrix[i * row + i] += share;
    gain[i * row + i] = share * more;
  }
  update.kept = solve_small<Scalar>(matrix, gain, update.count);
  if (update.kept == 0.0) return std::nullopt;
  for (std::size_t i = 0; i < update.count; ++i)
    for (std::size_t j = 0; j < update.count; ++j) update.gain[i * row + j] = gain[i * row + j] / (unit[i] * unit[j]);
  update.current = update.currents(responses.branch_voltages().data());
  return update;
}

template std::optional<Update<double>> low_rank_update(const Solution<double>&, const Responses<double>&,
                                                       std::span<const ChangedState<double>>);
template std::optional<Update<std::complex<double>>> low_rank_update(
    const Solution<std::complex<double>>&, const Responses<std::complex<double>>&,
    std::span<const ChangedState<std::complex<double>>>);

}  // namespace ohmwright::circuit
