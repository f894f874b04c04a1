#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/circuit/solution.hpp>

namespace ohmwright::circuit {

/// How every probed pair and every branch of a solved network answers to a current put in at every branch.
///
/// This is what makes a variant cheap: it is these numbers and a matrix as large as the number of changes. Rows are the
/// probed pairs, then the branches; what cannot answer (a pair or an open branch over separated parts) has zeros.
template <typename Scalar>
class Responses {
 public:
  Responses(const Solution<Scalar>& solution, std::span<const BranchState<Scalar>> branches,
            std::span<const NodePair> pairs);

  std::size_t pair_count() const { return impedances_.size(); }
  std::size_t branch_count() const { return branch_count_; }
  std::size_t row_of(BranchIndex branch) const { return pair_count() + branch; }

  /// Voltage [V] in a row for 1 A put in at each branch's `from` and taken out at its `to`: one number a branch.
  const Scalar* to_branches(std::size_t row) const { return transfers_.data() + row * branch_count_; }
  /// Impedance [ohm] that a probed pair sees.
  Scalar impedance(std::size_t pair) const { return impedances_[pair]; }
  /// Voltage [V] in a row with the sources at work.
  Scalar voltage(std::size_t row) const { return voltages_[row]; }
  /// Voltages of all branches [V].
  std::span<const Scalar> branch_voltages() const { return std::span(voltages_).subspan(pair_count()); }
  bool separated(std::size_t pair) const { return separated_[pair] != 0; }

 private:
  std::size_t branch_count_;
  std::vector<Scalar> transfers_;
  std::vector<Scalar> impedances_;
  std::vector<Scalar> voltages_;
  std::vector<unsigned char> separated_;
};

extern template class Responses<double>;
extern template class Responses<std::complex<double>>;

}  // namespace ohmwright::circuit
