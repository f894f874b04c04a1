#include <algorithm>
#include <utility>
#include <vector>

#include <ohmwright/cycles/standstill.hpp>

namespace ohmwright::cycles {

namespace {

/// No cold appliance rests for so long, nor for so many times its usual pause (common practice, no source).
constexpr double longest_known_rest_second = 6.0 * 3600.0;
constexpr double usual_pauses = 8.0;
/// The coil of an appliance that cools is warmer than this for the end of a defrost only (common practice, no source).
constexpr double room_kelvin = 288.15;

struct Stretch {
  double start_second = 0.0;
  double end_second = 0.0;
};

/// Times in which the compressor runs or a heater heats, in order.
std::vector<Stretch> busy_times(const LogAnalysis& analysis) {
  std::vector<Stretch> busy;
  for (const CompressorRun& run : analysis.runs) busy.push_back({run.start_second, run.end_second});
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.heater_is_seen || !analysis.has_load) busy.push_back({defrost.start_second, defrost.end_second});
  std::sort(busy.begin(), busy.end(),
            [](const Stretch& a, const Stretch& b) { return a.start_second < b.start_second; });
  return busy;
}

void take_longer(const Stretch& stretch, std::optional<Stretch>& longest) {
  if (!longest || stretch.end_second - stretch.start_second > longest->end_second - longest->start_second)
    longest = stretch;
}

std::optional<Stretch> longest_rest(const LogAnalysis& analysis, FunctionRef<double(double, double)> unseen_within) {
  std::optional<Stretch> longest;
  const bool all_runs =
      analysis.run_count == analysis.runs.size() && analysis.defrost_count == analysis.defrosts.size();
  // A coil or air that stays as cold without a swing rests as little as one that is cooled on and on.
  if (!analysis.has_load || !all_runs || analysis.runs.empty() || !analysis.typical_pause_second) return longest;
  const double least = std::max(longest_known_rest_second, usual_pauses * *analysis.typical_pause_second);
  double rests_from = 0.0;
  const auto rest_until = [&](double second) {
    const double rested = second - rests_from - unseen_within(rests_from, std::max(rests_from, second));
    if (rested >= least) take_longer({rests_from, second}, longest);
  };
  for (const Stretch& one : busy_times(analysis)) {
    rest_until(one.start_second);
    rests_from = std::max(rests_from, one.end_second);
  }
  rest_until(analysis.coverage.span_second);
  return longest;
}

std::size_t warm_quantity(const LogAnalysis& analysis) {
  return index_of(analysis.has_coil ? LogQuantity::coil_temperature : LogQuantity::cabinet_temperature);
}

std::optional<Stretch> longest_warm_time(const LogAnalysis& analysis) {
  std::optional<Stretch> longest;
  if (!analysis.has_coil && !analysis.has_cabinet) return longest;
  const std::size_t quantity = warm_quantity(analysis);
  const PlotColumns& columns = analysis.outline.columns();
  const double each = analysis.outline.column_second();
  std::optional<Stretch> warm;
  bool was_cold = false;  // what is warm from the first row to the last is no appliance that stopped
  const auto close = [&] {
    if (warm && warm->end_second - warm->start_second >= longest_known_rest_second) take_longer(*warm, longest);
    warm.reset();
  };
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const PlotExtent& extent = columns[i][quantity];
    if (extent.is_empty()) continue;
    const double start = static_cast<double>(i) * each;
    if (static_cast<double>(extent.least) < room_kelvin) {
      was_cold = true;
      close();
    } else if (warm) {
      warm->end_second = start + each;
    } else {
      warm = Stretch{start, start + each};
    }
  }
  close();
  if (!was_cold) longest.reset();
  return longest;
}

/// Mean of coil or cabinet in the second half of the stretch, from the outline.
std::optional<double> kelvin_in(const LogAnalysis& analysis, const Stretch& stretch) {
  const PlotColumns& columns = analysis.outline.columns();
  const double each = analysis.outline.column_second();
  const double from = 0.5 * (stretch.start_second + stretch.end_second);
  double sum = 0.0;
  double count = 0.0;
  for (auto i = static_cast<std::size_t>(from / each);
       i < columns.size() && static_cast<double>(i) * each < stretch.end_second; ++i) {
    const PlotExtent& extent = columns[i][warm_quantity(analysis)];
    if (extent.is_empty()) continue;
    sum += 0.5 * static_cast<double>(extent.least + extent.most);
    count += 1.0;
  }
  return count > 0.0 ? std::optional<double>(sum / count) : std::nullopt;
}

}  // namespace

std::optional<Standstill> find_standstill(const LogAnalysis& analysis,
                                          FunctionRef<double(double from_second, double to_second)> unseen_within) {
  std::optional<Stretch> longest = longest_rest(analysis, unseen_within);
  if (const std::optional<Stretch> warm = longest_warm_time(analysis)) take_longer(*warm, longest);
  if (!longest) return std::nullopt;
  return Standstill{longest->start_second, std::min(longest->end_second, analysis.coverage.span_second),
                    kelvin_in(analysis, *longest)};
}

}  // namespace ohmwright::cycles
