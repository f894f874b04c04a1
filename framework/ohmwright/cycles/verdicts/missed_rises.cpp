#include <algorithm>
#include <cmath>
#include <cstddef>

#include <ohmwright/cycles/verdicts/missed_rises.hpp>

namespace ohmwright::cycles {

namespace {

/// Warmer than this a coil gets by a heater, or by standing; a heater that is dead lets it come up to -10 degC while
/// the compressor waits for it (common practice, no source, and simulated).
constexpr double warm_as_in_a_rise_kelvin = melting_point_kelvin - 5.0;
/// For so long the shortest rise is warmer, as the mean of a row within it (simulated: of the shipped appliances no row
/// of 10 minutes misses one, and of 12 minutes up to 15 % do).
constexpr double shortest_warm_part_second = 1200.0;
/// After a defrost that was seen the coil is cold again (common practice, no source).
constexpr double cooled_down_second = 2.0 * 3600.0;
/// Share of the log's rows that the coil has at least.
constexpr double logged_all_the_time = 0.95;

bool is_logged_all_the_time(const LogAnalysis& analysis) {
  return analysis.has_coil && analysis.coverage.logged_second[index_of(LogQuantity::coil_temperature)] >=
                                  logged_all_the_time * analysis.coverage.observed_second;
}

/// Whether no column of the outline that lies within these times [s] holds a row as warm as in a rise.
bool stayed_cold(const LogAnalysis& analysis, double from_second, double to_second) {
  const double each = analysis.outline.column_second();
  const PlotColumns& columns = analysis.outline.columns();
  bool any = false;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const double start = static_cast<double>(i) * each;
    const PlotExtent& coil = columns[i][index_of(LogQuantity::coil_temperature)];
    if (coil.is_empty() || start < from_second || start + each > to_second) continue;
    if (static_cast<double>(coil.most) > warm_as_in_a_rise_kelvin) return false;
    any = true;
  }
  return any;
}

double probability_of_one_missed(double spacing_second) {
  return spacing_second > 0.0 ? std::clamp(2.0 - shortest_warm_part_second / spacing_second, 0.0, 1.0) : 0.0;
}

}  // namespace

double probability_of_missed_rises(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait) {
  const LogAnalysis& analysis = log.analysis;
  if (!is_logged_all_the_time(analysis)) return 1.0;
  const double from = open.start_second > 0.0 ? open.start_second + cooled_down_second : 0.0;
  if (!stayed_cold(analysis, from, open.start_second + open.second)) return 1.0;
  const double due = std::floor((wait.waited_second - wait.doubt_second) / wait.longest_second);
  const double one = probability_of_one_missed(analysis.coverage.spacing_second);
  return wait.counts_running ? std::pow(one, std::max(1.0, due)) : one;
}

}  // namespace ohmwright::cycles
