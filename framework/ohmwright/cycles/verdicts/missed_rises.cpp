#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

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

/// How often the coil was as warm as in a rise in columns of the outline within these times [s]; nothing where none of
/// them holds a row.
std::optional<double> warm_times(const LogAnalysis& analysis, double from_second, double to_second) {
  const double each = analysis.outline.column_second();
  const PlotColumns& columns = analysis.outline.columns();
  std::optional<double> count;
  bool is_warm = false;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const double start = static_cast<double>(i) * each;
    const PlotExtent& coil = columns[i][index_of(LogQuantity::coil_temperature)];
    if (coil.is_empty() || start < from_second || start + each > to_second) continue;
    const bool was_warm = std::exchange(is_warm, static_cast<double>(coil.most) > warm_as_in_a_rise_kelvin);
    count = count.value_or(0.0) + (is_warm && !was_warm ? 1.0 : 0.0);
  }
  return count;
}

std::optional<double> warm_times(const LogAnalysis& analysis, const OpenInterval& open) {
  const double from = open.start_second > 0.0 ? open.start_second + cooled_down_second : 0.0;
  return warm_times(analysis, from, open.start_second + open.second);
}

double due_in(const DefrostWait& wait) {
  return std::max(1.0, std::floor((wait.waited_second - wait.doubt_second) / wait.longest_second));
}

double probability_of_one_missed(double spacing_second) {
  return spacing_second > 0.0 ? std::clamp(2.0 - shortest_warm_part_second / spacing_second, 0.0, 1.0) : 0.0;
}

}  // namespace

double probability_of_missed_rises(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait) {
  const LogAnalysis& analysis = log.analysis;
  if (!is_logged_all_the_time(analysis)) return 1.0;
  if (warm_times(analysis, open).value_or(1.0) > 0.0) return 1.0;
  const double one = probability_of_one_missed(analysis.coverage.spacing_second);
  return wait.counts_running ? std::pow(one, due_in(wait)) : one;
}

bool shows_warm_rows(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait) {
  return log.analysis.has_coil && 2.0 * warm_times(log.analysis, open).value_or(0.0) >= due_in(wait);
}

}  // namespace ohmwright::cycles
