#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/search/defrosts_in_common.hpp>

namespace ohmwright::cycles {

bool ended_at_the_melting_point(const Defrost& defrost) {
  return defrost.end_kelvin && *defrost.end_kelvin < melting_point_kelvin + melting_margin_kelvin;
}

bool stayed_at_the_melting_point(const Defrost& defrost) {
  return ended_at_the_melting_point(defrost) && defrost.peak_kelvin &&
         *defrost.peak_kelvin < melting_point_kelvin + past_melting_kelvin;
}

bool ended_hardly_past_melting(const Defrost& defrost) {
  return defrost.end_kelvin && std::max(*defrost.end_kelvin, defrost.peak_kelvin.value_or(*defrost.end_kelvin)) <
                                   melting_point_kelvin + hardly_past_melting_kelvin;
}

bool stayed_far_below_melting(const Defrost& defrost) {
  constexpr double heats_any_coil_second = 600.0;
  constexpr double far_below_kelvin = melting_point_kelvin - 6.0;
  return defrost.heater_is_seen && duration_of(defrost) >= heats_any_coil_second && defrost.end_kelvin &&
         std::max(*defrost.end_kelvin, defrost.peak_kelvin.value_or(0.0)) < far_below_kelvin;
}

double warming_after_melting_second(const Defrost& defrost) {
  return std::max(
      60.0, defrost.end_second - defrost.plateau_start_second.value_or(defrost.start_second) - defrost.plateau_second);
}

bool has_risen(const Defrost& defrost) { return defrost.end_kelvin && defrost.rise_is_seen; }

namespace {

/// From the least to the most, of four and more without these two.
double inner_range_of(std::vector<double> values) {
  constexpr std::size_t enough_to_leave_two = 4;
  if (values.empty()) return 0.0;
  std::sort(values.begin(), values.end());
  const bool leaves_two = values.size() >= enough_to_leave_two;
  return leaves_two ? values[values.size() - 2] - values[1] : values.back() - values.front();
}

Lengths lengths_of(const std::vector<double>& seconds, double tolerance_second) {
  Lengths lengths;
  if (seconds.empty()) return lengths;
  lengths.count = seconds.size();
  const auto [shortest, longest] = std::minmax_element(seconds.begin(), seconds.end());
  lengths.shortest_second = *shortest;
  lengths.longest_second = *longest;
  lengths.usual_second = median_of(seconds);
  std::vector<double> apart;
  for (const double second : seconds) {
    apart.push_back(std::abs(second - lengths.usual_second));
    if (second > lengths.longest_second - tolerance_second) ++lengths.longest_count;
  }
  lengths.apart_second = median_of(std::move(apart));
  constexpr std::size_t enough_to_leave_two = 4;
  if (seconds.size() >= enough_to_leave_two) lengths.inner_range_second = inner_range_of(seconds);
  std::vector<double> longest_ones;
  std::copy_if(seconds.begin(), seconds.end(), std::back_inserter(longest_ones),
               [&](double second) { return second > lengths.longest_second - tolerance_second; });
  lengths.range_of_longest_second = inner_range_of(std::move(longest_ones));
  return lengths;
}

/// Values of some defrosts, from the least to the most; 0 of none.
double spread_of(const std::vector<double>& values) {
  if (values.empty()) return 0.0;
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *most - *least;
}

bool ended_warm(const Defrost& defrost) {
  return defrost.end_kelvin && *defrost.end_kelvin > melting_point_kelvin + past_melting_kelvin;
}

/// The coil rose, and was hardly past the melting point at the end, or short of where it should end.
bool ended_cold(const LogRatings& ratings, const Defrost& defrost) {
  if (!has_risen(defrost)) return false;
  const bool is_short_of_rating =
      ratings.end_temperature_kelvin &&
      *defrost.end_kelvin < *ratings.end_temperature_kelvin - ratings.end_temperature_tolerance_kelvin;
  return is_short_of_rating || *defrost.end_kelvin < melting_point_kelvin + hardly_past_melting_kelvin;
}

/// What `take` gives of those whole defrosts for which `counts` holds.
template <class Counts, class Take>
std::vector<double> of_whole(const std::vector<Defrost>& defrosts, Counts counts, Take take) {
  std::vector<double> values;
  for (const Defrost& defrost : defrosts)
    if (!defrost.is_cut && counts(defrost)) values.push_back(take(defrost));
  return values;
}

/// Each edge lies anywhere within one step; that of a rise, whose heater was not seen, within two [s].
double tolerance_of(double spacing_second, bool any_heated, double longest_second) {
  const double rows = any_heated ? rows_of_one_length : 2.0 * rows_of_one_length;
  return std::max(rows * spacing_second, share_of_one_length * longest_second);
}

/// Where no plateau was told apart, a part of the rise went by before the melting.
double slope_of(const Defrost& defrost) {
  const double warming = warming_after_melting_second(defrost) * (defrost.plateau_start_second ? 1.0 : 0.5);
  return std::max(0.0, *defrost.end_kelvin - melting_point_kelvin) / warming;
}

}  // namespace

InCommon in_common(const LogRatings& ratings, double spacing_second, const std::vector<Defrost>& defrosts) {
  const auto any = [](const Defrost&) { return true; };
  const auto is_cold = [&](const Defrost& one) { return ended_cold(ratings, one); };
  const auto has_coil = [](const Defrost& one) { return one.has_coil; };
  const auto plateau_of = [](const Defrost& one) { return one.plateau_second; };
  const auto end_of = [](const Defrost& one) { return *one.end_kelvin; };
  const std::vector<double> seconds = of_whole(defrosts, any, duration_of);
  const std::vector<double> ends = of_whole(defrosts, has_risen, end_of);
  const std::vector<double> warm_ends = of_whole(defrosts, ended_warm, end_of);
  const double longest = seconds.empty() ? 0.0 : *std::max_element(seconds.begin(), seconds.end());
  InCommon common;
  common.spacing_second = spacing_second;
  common.any_heated = std::any_of(defrosts.begin(), defrosts.end(),
                                  [](const Defrost& one) { return !one.is_cut && one.heater_is_seen; });
  common.tolerance_second = tolerance_of(spacing_second, common.any_heated, longest);
  common.all = lengths_of(seconds, common.tolerance_second);
  common.cold = lengths_of(of_whole(defrosts, is_cold, duration_of), common.tolerance_second);
  common.risen = ends.size();
  common.end_spread_kelvin = spread_of(ends);
  common.melting = static_cast<std::size_t>(std::count_if(defrosts.begin(), defrosts.end(), [](const Defrost& one) {
    return !one.is_cut && has_risen(one) && stayed_at_the_melting_point(one);
  }));
  common.slope_kelvin_per_second = median_of(of_whole(defrosts, has_risen, slope_of));
  common.end_slope_kelvin_per_second = median_of(of_whole(defrosts, has_risen, [](const Defrost& one) {
    return std::min(slope_of(one), one.end_slope_kelvin_per_second.value_or(1e300));
  }));
  common.warm = warm_ends.size();
  common.usual_end_kelvin = median_of(warm_ends);
  common.plateau_spread_second = spread_of(of_whole(defrosts, has_coil, plateau_of));
  return common;
}

}  // namespace ohmwright::cycles
