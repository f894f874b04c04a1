#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace ohmwright::cycles {

/// An interval between two defrosts, by both counts [s].
struct BothCounts {
  double clock_second = 0.0;
  std::optional<double> running_second;  ///< of the compressor, where all of it was logged
};

/// What a control counts from one defrost to the next, as a log shows it.
enum class ShownCount : std::uint8_t {
  clock,    ///< alike by the clock, and not by the compressor's running
  running,  ///< alike by the running, and not by the clock
  neither,  ///< alike by none of them: a control that varies its interval
  untold,   ///< too few, or alike by both: an evenly used freezer runs evenly
};

/// Tells it from intervals in which no defrost can hide. `edge_second`: standard uncertainty of one of them by the
/// clock, `running_edge_second`: by the running.
ShownCount shown_count(const std::vector<BothCounts>& intervals, double edge_second, double running_edge_second);

}  // namespace ohmwright::cycles
