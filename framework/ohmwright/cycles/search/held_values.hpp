#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright::cycles {

/// Fills in what a meter or logger leaves out that writes a value only when it changes: a value holds until the next.
///
/// Whether a log of one quantity is of that sort is told from its first rows. A load: neighbours differ, and where it
/// rests, or altogether, rows lie far further apart than elsewhere. A temperature: after the longest pauses it has
/// changed by no more than a step. Rows of all other logs pass as they are.
class HeldValues {
 public:
  using Give = FunctionRef<void(std::span<const LogRow>)>;

  /// Gives the rows on, with rows between them where a value holds.
  void take(std::span<const LogRow> rows, Give give);
  /// Call once, after the last row.
  void finish(Give give);

  /// For how long a value is held at most [s]; nothing where none is held. A longer pause is a gap.
  std::optional<double> longest_second() const { return longest_second_; }

 private:
  void fill(std::span<const LogRow> rows, Give give);

  std::vector<LogRow> waiting_;  ///< until it is told
  bool is_told_ = false;
  std::optional<double> longest_second_;
  std::optional<LogRow> last_;
};

}  // namespace ohmwright::cycles
