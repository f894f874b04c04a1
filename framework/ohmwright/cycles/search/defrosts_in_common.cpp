#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/search/defrosts_in_common.hpp>

namespace ohmwright::cycles {

bool ended_at_the_melting_point(const Defrost& defrost) {
  return defrost.end_kelvin && *defrost.end_kelvin < melting_point_kelvin + melting_margin_kelvin;
}

bool has_risen(const Defrost& defrost) { return defrost.end_kelvin && defrost.rise_is_seen; }

namespace {

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

/// The coil rose, and was still at the melting point at the end, or short of where it should end.
bool ended_cold(const LogRatings& ratings, const Defrost& defrost) {
  if (!has_risen(defrost)) return false;
  const bool is_short_of_rating =
      ratings.end_temperature_kelvin &&
      *defrost.end_kelvin < *ratings.end_temperature_kelvin - ratings.end_temperature_tolerance_kelvin;
  return is_short_of_rating || ended_at_the_melting_point(defrost);
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
double tolerance_of(double spacing_second, const std::vector<Defrost>& defrosts, double longest_second) {
  const bool any_heated = std::any_of(defrosts.begin(), defrosts.end(),
                                      [](const Defrost& one) { return !one.is_cut && one.heater_is_seen; });
  return std::max((any_heated ? 1.2 : 2.4) * spacing_second, 0.012 * longest_second);
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
  common.tolerance_second = tolerance_of(spacing_second, defrosts, longest);
  common.all = lengths_of(seconds, common.tolerance_second);
  common.cold = lengths_of(of_whole(defrosts, is_cold, duration_of), common.tolerance_second);
  common.risen = ends.size();
  common.end_spread_kelvin = spread_of(ends);
  common.melting = static_cast<std::size_t>(std::count_if(
      ends.begin(), ends.end(), [](double kelvin) { return kelvin < melting_point_kelvin + melting_margin_kelvin; }));
  common.warm = warm_ends.size();
  common.usual_end_kelvin = median_of(warm_ends);
  common.plateau_spread_second = spread_of(of_whole(defrosts, has_coil, plateau_of));
  return common;
}

}  // namespace ohmwright::cycles
