#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>

#include <ohmwright/circuit/responses.hpp>

namespace ohmwright::circuit {

/// A few changed branches as a correction of low rank to a solved network.
///
/// A changed admittance is the old one with a current source beside it that carries what it has more: the currents
/// follow from a system as large as the number of changes (Woodbury's identity; compensation theorem of circuits). A
/// removed bridge needs no number at all: it carried no current, and parts the pairs on its two sides.
///
/// Source: W. W. Hager, Updating the inverse of a matrix, SIAM Review 31 (1989), 221 (from memory).
template <typename Scalar>
struct Update {
  static constexpr std::size_t most_changes = 4;

  std::size_t count = 0;
  std::array<BranchIndex, most_changes> branch{};
  std::array<Scalar, most_changes * most_changes> gain{};  ///< compensating currents a volt, row length most_changes
  std::array<Scalar, most_changes> current{};              ///< compensating currents with the sources at work [A]
  double kept = 1.0;                                       ///< share of 1 that cancellation left in the gains
  std::size_t cut_count = 0;
  std::array<BranchIndex, most_changes> cut{};  ///< removed bridges

  /// Compensating currents for 1 V in place of the sources' voltages, of which `voltages` has one a branch.
  std::array<Scalar, most_changes> currents(const Scalar* voltages) const {
    std::array<Scalar, most_changes> result{};
    for (std::size_t i = 0; i < count; ++i)
      for (std::size_t j = 0; j < count; ++j) result[i] += gain[i * most_changes + j] * voltages[branch[j]];
    return result;
  }

  /// Whether a removed bridge lies between the nodes of a row.
  bool cuts(const Scalar* to_branches) const {
    for (std::size_t i = 0; i < cut_count; ++i)
      if (to_branches[cut[i]] != Scalar{}) return true;
    return false;
  }
};

/// A branch before and after.
template <typename Scalar>
struct ChangedState {
  BranchIndex branch = 0;
  BranchState<Scalar> was;
  BranchState<Scalar> becomes;
};

/// The correction for `changes`; nothing where it would lose digits, or where the joints of the network change in a way
/// that only a new solution tells.
template <typename Scalar>
std::optional<Update<Scalar>> low_rank_update(const Solution<Scalar>& solution, const Responses<Scalar>& responses,
                                              std::span<const ChangedState<Scalar>> changes);

extern template std::optional<Update<double>> low_rank_update(const Solution<double>&, const Responses<double>&,
                                                              std::span<const ChangedState<double>>);
extern template std::optional<Update<std::complex<double>>> low_rank_update(
    const Solution<std::complex<double>>&, const Responses<std::complex<double>>&,
    std::span<const ChangedState<std::complex<double>>>);

/// What a result may lose to cancellation before it is taken from a full solution: 1e-4 leaves 12 digits of 16.
inline constexpr double least_share_kept = 1e-4;

}  // namespace ohmwright::circuit
