#pragma once

#include <vector>

#include <ohmwright/cycles/search/level_scan.hpp>

namespace ohmwright::cycles {

/// A stretch of load that may be a heater's.
struct HeaterRun {
  Run run;
  double load = 0.0;              ///< mean, without its edges
  double spread = 0.0;            ///< standard deviation over mean, without its edges
  bool drip_seen = false;         ///< afterwards the load was at its lowest for a while
  bool drip_may_follow = false;   ///< so, or the rows are too far apart to show it
  bool rides_on_cooling = false;  ///< it is short, and the compressor draws before it and after it
  bool pulls_down = false;        ///< it begins at a long rest and fades into what goes on, as an inverter's start does
  double score = 0.0;             ///< 1 is the least that counts
};

/// The heater runs of a window and the levels they were told by.
struct HeaterSearch {
  std::vector<HeaterRun> runs;
  double threshold = 0.0;            ///< a load above it is a heater's; 0: none was found
  double shortest_second = 0.0;      ///< above it for less is something else: an ice maker, a lamp
  double outside_load = 0.0;         ///< the load that all else stays below for 98 % of the time
  double one_level_second = 0.0;     ///< at the only level above standby, where it may cool or heat; 0: told apart
  std::size_t short_stand_outs = 0;  ///< rows that are far apart and stand above all else, beside what was found
  std::size_t too_frequent =
      0;  ///< heatings as of a defrost that come oftener than any control's, where none was found
  bool heats_at_only_level = false;  ///< all that is not in the runs is standby: what draws in them may cool
};

/// Looks for defrost heaters in the load alone.
///
/// Every level between the middle and the greatest load, with every shortest duration, is tried as a threshold; the
/// runs above it are scored by how far they stand out of all else, how long and how flat they are, whether a drip time
/// follows and how far apart they lie; the threshold whose runs score best is taken. So nothing depends on watts that
/// were known before. The weights are common practice, no source; the tests show what they find.
HeaterSearch search_heater(const Window& window);

}  // namespace ohmwright::cycles
