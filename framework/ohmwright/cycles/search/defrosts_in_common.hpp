#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// An end within this of the melting point is at it [K] (this and the next two: common practice, no source).
inline constexpr double melting_margin_kelvin = 1.5;
/// Rows further apart hold heater and compressor in part [s].
inline constexpr double shows_both_second = 100.0;
/// Past the melting point by this the ice is gone [K].
inline constexpr double past_melting_kelvin = 3.0;
/// No good thermostat opens before it [K].
inline constexpr double hardly_past_melting_kelvin = 4.0;

inline double duration_of(const Defrost& defrost) { return defrost.end_second - defrost.start_second; }
bool ended_at_the_melting_point(const Defrost& defrost);
/// Neither at the end of heating nor behind it was the coil past it.
bool stayed_at_the_melting_point(const Defrost& defrost);
/// Neither at the end of heating nor behind it was the coil warmer than any good thermostat leaves it.
bool ended_hardly_past_melting(const Defrost& defrost);
/// A heater drew for ten minutes and more and what was logged stayed far below the melting point: the probe does not
/// lie on the coil, or the load is another's (common practice, no source).
bool stayed_far_below_melting(const Defrost& defrost);
/// From the end of melting to the end of heating, a minute at least [s].
double warming_after_melting_second(const Defrost& defrost);
/// The coil rose, and how warm it was at the end of heating is known.
bool has_risen(const Defrost& defrost);

/// The lengths of some defrosts [s].
struct Lengths {
  std::size_t count = 0;
  double shortest_second = 0.0;
  double longest_second = 0.0;
  double usual_second = 0.0;        ///< median
  double apart_second = 0.0;        ///< how far from it they usually lie: a single odd one changes nothing
  std::size_t longest_count = 0;    ///< as long as the longest, within the tolerance
  double inner_range_second = 0.0;  ///< from the second shortest to the second longest; 0 of fewer than four

  double range_of_longest_second = 0.0;  ///< of these, the shortest and the longest left out where they are four

  bool few_are_longest() const { return longest_count * 2 < count; }
};

/// What the whole defrosts of a log have in common.
struct InCommon {
  double spacing_second = 0.0;
  double tolerance_second = 0.0;
  bool any_heated = false;  ///< the heater was seen in one of them: lengths are those of the load
  Lengths all;
  Lengths cold;             ///< of those that ended hardly past the melting point, or below the rated end temperature
  std::size_t risen = 0;    ///< in which the coil rose
  std::size_t melting = 0;  ///< of which so many stayed at the melting point
  double end_spread_kelvin = 0.0;  ///< of those in which it rose
  std::size_t warm = 0;
  double usual_end_kelvin = 0.0;  ///< median of those that ended warm
  double plateau_spread_second = 0.0;
  double slope_kelvin_per_second = 0.0;      ///< usual warming of the coil between the melting and the end
  double end_slope_kelvin_per_second = 0.0;  ///< and in the last rows of it

  /// Rows are small against the heating: else times that a temperature made look equal too.
  bool is_fine_for_coil() const { return tolerance_second < 0.2 * all.longest_second; }
  bool have_one_end(double margin_kelvin) const {
    return warm >= 3 && warm == risen && end_spread_kelvin <= 2.0 + margin_kelvin;
  }
  bool durations_differ() const {
    return all.count >= 2 &&
           all.longest_second - all.shortest_second > std::max(2.0 * tolerance_second, 0.06 * all.longest_second);
  }
  /// Each edge lies within one row, so that one length is written as two that are a row apart: these are not of one,
  /// a single odd one to each side left out.
  bool cold_ones_lie_apart() const {
    // Rows that hold parts of heater and compressor move both edges.
    const double rows = spacing_second > shows_both_second ? 2.9 : 1.9;
    return cold.inner_range_second >= std::max(rows * spacing_second, 0.05 * cold.usual_second);
  }
  /// A time limit ends all at one length. Of these that ended cold most lie apart, and few are as long as the longest.
  bool cold_ones_differ() const {
    const bool most_lie_apart = cold.apart_second > std::max(tolerance_second, 0.04 * cold.usual_second);
    return cold.count >= 3 && cold.few_are_longest() && (most_lie_apart || cold_ones_lie_apart());
  }
  /// No time limit made these lengths, and too many are as long as the longest to say that none is there. Of rises, of
  /// which noise blurs some, the longest have to differ, too.
  bool cold_ones_leave_it_open() const {
    const bool longest_differ = cold.range_of_longest_second >= rows_of_one_length * spacing_second;
    return cold_ones_lie_apart() && !cold_ones_differ() && (any_heated || longest_differ);
  }
  /// What a good thermostat's ends may lie apart by [K]: what the coil warms within the row in which it ended, and
  /// within the time by which the lengths were seen to differ.
  double one_end_margin_kelvin() const { return slope_kelvin_per_second * one_end_margin_second(); }
  /// The same of ones that lasted equally long, whose ends were seen at one point of the rise: a hot coil warms slowly.
  double alike_end_margin_kelvin() const { return end_slope_kelvin_per_second * one_end_margin_second(); }
  double one_end_margin_second() const {
    return spacing_second + std::min(tolerance_second, all.longest_second - all.shortest_second);
  }
  bool is_longest(const Defrost& defrost) const { return duration_of(defrost) > all.longest_second - tolerance_second; }
};

InCommon in_common(const LogRatings& ratings, double spacing_second, const std::vector<Defrost>& defrosts);

}  // namespace ohmwright::cycles
