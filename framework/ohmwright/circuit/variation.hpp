#pragma once

#include <array>
#include <cmath>
#include <complex>
#include <memory>
#include <span>
#include <vector>

#include <ohmwright/circuit/prepared.hpp>
#include <ohmwright/circuit/update.hpp>

namespace ohmwright::circuit {

/// How large a number is, near enough to tell whether digits were lost (a complex one at most √2 more).
inline double rough_size(double value) { return std::abs(value); }
inline double rough_size(const std::complex<double>& value) { return std::abs(value.real()) + std::abs(value.imag()); }

/// A prepared network with a few branches changed: a correction of it where that keeps its digits, else solved anew,
/// at once or when the first reading asks for it.
template <typename Scalar>
class Variation {
 public:
  /// Refers to `prepared`, which must stay where it is. Throws InputError as Solution does.
  Variation(const Prepared<Scalar>& prepared, std::span<const Change> changes);

  const Prepared<Scalar>& prepared() const { return *prepared_; }

  /// Whether no way leads from one probe to the other.
  bool separated(std::size_t pair) const;
  /// Impedance [ohm] that a pair sees; the pair is not separated. Its digits are kept as far as they count beside what
  /// it will be added to.
  Scalar impedance(std::size_t pair, double added_to_in_ohm = 0.0);
  /// Voltage [V] of a pair without a meter; the pair is not separated.
  Scalar voltage(std::size_t pair);

  /// What a branch is now.
  const BranchModel& model(BranchIndex branch) const;
  BranchState<Scalar> state(BranchIndex branch) const;

  /// Voltages of a pair for 1 A through each branch, and for 1 V of each source (0 for other branches): one a branch.
  void transfers(NodePair pair, std::span<Scalar> to_branches, std::span<Scalar> to_sources) const;
  /// Voltages of all branches with the sources at work, one a branch.
  void branch_voltages(std::span<Scalar> voltages) const;

  /// The correction, or nothing where the variation was solved anew.
  const Update<Scalar>* update() const { return solved_ ? nullptr : &update_; }
  /// The new solution, made when there is none.
  const Solution<Scalar>& solve();
  const Solution<Scalar>& solution() const { return solved_ ? solved_->solution : prepared_->solution(); }

  /// Whether the parts of a corrected sum leave too little of it, the digits counted that the correction lost before.
  bool cancels(double result, double parts) const { return result * update_.kept < least_share_kept * parts; }

 private:
  struct Solved {
    std::vector<Branch> branches;
    std::vector<BranchState<Scalar>> states;
    Solution<Scalar> solution;
    TreePath path;  ///< of the reading at hand, kept for its memory
  };

  static constexpr std::size_t most_kept = 2 * Update<Scalar>::most_changes;

  void solve_anew(std::span<const Change> changes);
  const ChangedState<Scalar>* changed(BranchIndex branch) const;

  const Prepared<Scalar>* prepared_;
  Update<Scalar> update_;
  std::size_t change_count_ = 0;
  std::array<ChangedState<Scalar>, most_kept> states_{};
  std::array<BranchModel, most_kept> models_{};
  std::unique_ptr<Solved> solved_;
};

extern template class Variation<double>;
extern template class Variation<std::complex<double>>;

template <typename Scalar>
inline bool Variation<Scalar>::separated(std::size_t pair) const {
  if (solved_) return solved_->solution.separated(prepared_->pairs()[pair]);
  const Responses<Scalar>& responses = prepared_->responses();
  return responses.separated(pair) || update_.cuts(responses.to_branches(pair));
}

template <typename Scalar>
inline Scalar Variation<Scalar>::impedance(std::size_t pair, double added_to_in_ohm) {
  if (!solved_) {
    const Responses<Scalar>& responses = prepared_->responses();
    const Scalar* const to_branches = responses.to_branches(pair);
    Scalar result = responses.impedance(pair);
    double parts = rough_size(result);
    for (std::size_t i = 0; i < update_.count; ++i) {
      for (std::size_t j = 0; j < update_.count; ++j) {
        const Scalar part = to_branches[update_.branch[i]] * update_.gain[i * Update<Scalar>::most_changes + j] *
                            to_branches[update_.branch[j]];
        result -= part;
        parts += rough_size(part);
      }
    }
    if (!cancels(rough_size(result + added_to_in_ohm), parts)) return result;
    solve();
  }
  solved_->solution.path(prepared_->pairs()[pair], solved_->path);
  return solved_->solution.impedance(solved_->path);
}

template <typename Scalar>
inline Scalar Variation<Scalar>::voltage(std::size_t pair) {
  if (!solved_) {
    const Responses<Scalar>& responses = prepared_->responses();
    const Scalar* const to_branches = responses.to_branches(pair);
    Scalar result = responses.voltage(pair);
    double parts = rough_size(result);
    for (std::size_t i = 0; i < update_.count; ++i) {
      const Scalar part = to_branches[update_.branch[i]] * update_.current[i];
      result -= part;
      parts += rough_size(part);
    }
    if (!cancels(rough_size(result), parts)) return result;
    solve();
  }
  solved_->solution.path(prepared_->pairs()[pair], solved_->path);
  return solved_->solution.voltage(solved_->path);
}

}  // namespace ohmwright::circuit
