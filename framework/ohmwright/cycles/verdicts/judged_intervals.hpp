#pragma once

#include <cstdint>
#include <limits>

#include <ohmwright/cycles/verdicts/odd_ones.hpp>

namespace ohmwright::cycles {

/// What the intervals are against the rated ones.
enum class IntervalStand : std::uint8_t {
  none_whole,     ///< none was seen whole
  in_limits,      ///< all of them
  unsettled,      ///< the one that lies worst is at an edge
  too_long,       ///< the one that lies worst
  too_short,      ///< the one that lies worst
  one_too_short,  ///< among others that are not: somebody may have started it by hand
  count_untold,   ///< too short by the running, and the log does not show that the control counts it
  ends_open,      ///< none came for longer, at an end of the log
  may_be_unseen,  ///< too long, or perhaps no defrosts: between two one may have come unseen
};

/// Whether it condemns.
bool is_out(IntervalStand stand);

/// What all intervals say by one count.
struct CountedIntervals {
  IntervalStand stand = IntervalStand::none_whole;
  LogVerdict worst{"interval", "", Outcome::silent};  ///< probability and limits of the one that lies worst
  OddOnes short_ones;                                 ///< surely shorter than the least
  double shortest_second = std::numeric_limits<double>::infinity();
  double longest_second = 0.0;
  bool is_running = false;

  bool any() const { return short_ones.all > 0.0; }
};

/// Intervals and open ends of a log whose control has a rated interval (`LogRatings::interval_most_second`), judged.
CountedIntervals judged_intervals(const JudgedLog& log);

}  // namespace ohmwright::cycles
