#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// An end within this of the melting point is at it [K] (this and the next: common practice, no source).
inline constexpr double melting_margin_kelvin = 1.5;
/// Past the melting point by this the ice is gone [K].
inline constexpr double past_melting_kelvin = 3.0;

inline double duration_of(const Defrost& defrost) { return defrost.end_second - defrost.start_second; }
bool ended_at_the_melting_point(const Defrost& defrost);
/// The coil rose, and how warm it was at the end of heating is known.
bool has_risen(const Defrost& defrost);

/// The lengths of some defrosts [s].
struct Lengths {
  std::size_t count = 0;
  double shortest_second = 0.0;
  double longest_second = 0.0;
  double usual_second = 0.0;      ///< median
  double apart_second = 0.0;      ///< how far from it they usually lie: a single odd one changes nothing
  std::size_t longest_count = 0;  ///< as long as the longest, within the tolerance

  bool few_are_longest() const { return longest_count * 2 < count; }
};

/// What the whole defrosts of a log have in common.
struct InCommon {
  double tolerance_second = 0.0;
  Lengths all;
  Lengths cold;                    ///< of those that ended at the melting point, or below the rated end temperature
  std::size_t risen = 0;           ///< in which the coil rose
  std::size_t melting = 0;         ///< of which so many ended at the melting point
  double end_spread_kelvin = 0.0;  ///< of those in which it rose
  std::size_t warm = 0;
  double usual_end_kelvin = 0.0;  ///< median of those that ended warm
  double plateau_spread_second = 0.0;

  /// Rows are small against the heating: else times that a temperature made look equal too.
  bool is_fine_for_coil() const { return tolerance_second < 0.2 * all.longest_second; }
  bool have_one_end(double margin_kelvin) const {
    return warm >= 3 && warm == risen && end_spread_kelvin <= 2.0 + margin_kelvin;
  }
  bool durations_differ() const {
    return all.count >= 2 &&
           all.longest_second - all.shortest_second > std::max(2.0 * tolerance_second, 0.06 * all.longest_second);
  }
  /// A time limit ends all at one length. Of these that ended cold most lie apart, and few are as long as the longest.
  bool cold_ones_differ() const {
    return cold.count >= 3 && cold.few_are_longest() &&
           cold.apart_second > std::max(tolerance_second, 0.04 * cold.usual_second);
  }
  bool is_longest(const Defrost& defrost) const { return duration_of(defrost) > all.longest_second - tolerance_second; }
};

InCommon in_common(const LogRatings& ratings, double spacing_second, const std::vector<Defrost>& defrosts);

}  // namespace ohmwright::cycles
