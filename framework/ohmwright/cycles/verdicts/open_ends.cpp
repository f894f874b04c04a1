#include <algorithm>
#include <string_view>

#include <ohmwright/cycles/search/defrosts_in_common.hpp>
#include <ohmwright/cycles/telling_rows.hpp>
#include <ohmwright/cycles/verdicts/odd_ones.hpp>
#include <ohmwright/cycles/verdicts/open_ends.hpp>

namespace ohmwright::cycles {

namespace {

bool is_whole(const Defrost& defrost) {
  return !defrost.is_cut && has_risen(defrost) && !stayed_far_below_melting(defrost) &&
         !(defrost.has_load && !defrost.heater_is_seen);
}

/// Those for which `is_odd` holds, where they are three at least and more than half of all; else none are odd.
template <class IsOdd>
OddOnes most_of(const LogAnalysis& analysis, IsOdd is_odd) {
  constexpr double fewest = 3.0;
  OddOnes count;
  for (const Defrost& one : analysis.defrosts) {
    if (!is_whole(one)) continue;
    ++count.all;
    if (is_odd(one)) ++count.odd;
  }
  if (count.odd < fewest || count.odd * 2.0 <= count.all) count.odd = 0.0;
  return count;
}

bool is_open_by(const Defrost& defrost, EndGround ground) {
  return defrost.cause == EndCause::unknown && defrost.ground == ground;
}

/// Hardly past the melting point in rows that show it.
bool ended_cold_in_telling_rows(const LogAnalysis& analysis, const Defrost& defrost) {
  constexpr double rows_of_the_heating = 5.0;
  if (analysis.coverage.spacing_second > farthest_telling_rows_second) return false;
  return ended_hardly_past_melting(defrost) && defrost.ground != EndGround::rated_temperature &&
         duration_of(defrost) >= rows_of_the_heating * analysis.coverage.spacing_second;
}

std::optional<LogVerdict> asked(const OddOnes& count, std::string_view text) {
  if (count.odd == 0.0) return std::nullopt;
  return question("defrost-end", text, count.arguments());
}

}  // namespace

std::optional<LogVerdict> open_ends(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  const auto open_by = [&](EndGround ground) {
    return most_of(analysis, [&](const Defrost& one) { return is_open_by(one, ground); });
  };
  if (auto verdict = asked(open_by(EndGround::equal_durations), "may-be-by-time")) return verdict;
  if (auto verdict = asked(open_by(EndGround::past_rated), "past-rating")) return verdict;
  const OddOnes cold = most_of(analysis, [&](const Defrost& one) {
    const bool is_short = is_open_by(one, EndGround::below_rated) && ended_hardly_past_melting(one);
    return is_open_by(one, EndGround::still_melting) || is_short || ended_cold_in_telling_rows(analysis, one);
  });
  if (auto verdict = asked(cold, "cold-ends")) return verdict;
  if (auto verdict = asked(open_by(EndGround::past_melting), "warm-ends")) return verdict;
  return asked(open_by(EndGround::below_rated), "below-rating");
}

}  // namespace ohmwright::cycles
