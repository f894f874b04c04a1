#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/cycles/analyser_work.hpp>

namespace ohmwright::cycles {

namespace {

void take_gap(const LogGap& gap, LogCoverage& coverage) {
  ++coverage.gaps;
  coverage.gap_second += gap.second;
  if (gap.second > coverage.longest_gap.second) coverage.longest_gap = gap;
  if (coverage.first_gaps.size() < LogCoverage::most_listed_gaps) coverage.first_gaps.push_back(gap);
}

/// Of runs and pauses that fill fewer rows, means over rows do not tell how long they were.
bool rows_show_run_time(const LogAnalysis& analysis) {
  constexpr double fewest_rows = 2.5;
  const double least_second = fewest_rows * analysis.coverage.spacing_second;
  return !analysis.has_load || (analysis.typical_run_second.value_or(least_second) >= least_second &&
                                analysis.typical_pause_second.value_or(least_second) >= least_second);
}

}  // namespace

PlotPoint plot_point(const Window& window, std::size_t i) {
  const auto at = [i](const std::vector<double>& values) {
    return static_cast<float>(values.empty() ? LogRow::none : values[i]);
  };
  PlotPoint point{window.start[i], window.width[i], {}};
  point.value.fill(static_cast<float>(LogRow::none));
  point.value[index_of(LogQuantity::coil_temperature)] = at(window.coil);
  point.value[index_of(LogQuantity::cabinet_temperature)] = at(window.cabinet);
  point.value[index_of(window.load_is_current ? LogQuantity::current : LogQuantity::power)] = at(window.load_mean);
  return point;
}

void LogAnalyser::Work::cover(const Window& window, double until) {
  LogCoverage& coverage = result.coverage;
  std::vector<double> row_spacings;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (i % 16 == 0 && samples[i].rows > 1 && samples[i].last_second > samples[i].first_second)
      row_spacings.push_back((samples[i].last_second - samples[i].first_second) / (samples[i].rows - 1));
    if (window.start[i] < told_up_to || window.start[i] >= until) continue;
    cover_sample(window, i);
    if (window.gap_after[i] == 0) continue;
    const double end_second = window.end_of(i);
    take_gap({end_second, window.start[i + 1] - end_second, samples[i].last_line}, coverage);
  }
  const bool dense = row_spacings.size() * 32 > samples.size();
  if (samples.size() > fewest_telling_samples || coverage.spacing_second <= 0.0)
    coverage.spacing_second =
        std::max(coverage.spacing_second, dense ? median_of(std::move(row_spacings)) : window.spacing_second);
  coverage.missing_rows = static_cast<std::uint64_t>(coverage.gap_second / std::max(coverage.spacing_second, 0.1));
}

void LogAnalyser::Work::cover_sample(const Window& window, std::size_t i) {
  LogCoverage& coverage = result.coverage;
  const double width = window.width[i];
  const double end = window.end_of(i);
  coverage.observed_second += width;
  coverage.span_second = end;
  result.outline.add(plot_point(window, i));
  const auto take = [&](const std::vector<double>& values, LogQuantity quantity) {
    if (values.empty() || std::isnan(values[i])) return false;
    coverage.logged_second[index_of(quantity)] += width;
    moves[index_of(quantity)].take(values[i], window.start[i], width);
    return true;
  };
  const bool load = take(window.load_mean, window.load_is_current ? LogQuantity::current : LogQuantity::power);
  const bool coil = take(window.coil, LogQuantity::coil_temperature);
  const bool cabinet = take(window.cabinet, LogQuantity::cabinet_temperature);
  if (coil) {
    coil_changes.take(window.start[i], window.coil[i]);
    coil_thaws.take(window.coil[i]);
  }
  if (load && !window.load_is_current) result.energy_joule += window.load_mean[i] * width;
  if (cabinet) cabinet_kelvin_second += window.cabinet[i] * width;
  const bool only_cabinet = !result.has_load && !result.has_coil;
  if (load || coil || (only_cabinet && cabinet)) unwatched.logged(window.start[i], end, shortest_defrost_second);
  if (result.has_load ? load : (coil || cabinet)) runs_unseen.logged(window.start[i], end, shortest_defrost_second);
}

void LogAnalyser::Work::set_figures() {
  LogCoverage& coverage = result.coverage;
  const auto logged = [&](LogQuantity quantity) { return coverage.logged_second[index_of(quantity)]; };
  if (const double second = logged(LogQuantity::cabinet_temperature); second > 0.0)
    result.cabinet_mean_kelvin = cabinet_kelvin_second / second;
  coverage.hidden_share = coverage.span_second > 0.0 ? unwatched.total_second() / coverage.span_second : 0.0;
  double heated = 0.0;
  for (const Defrost& defrost : result.defrosts)
    if (!result.has_load || defrost.has_load) heated += defrost.end_second - defrost.start_second;
  if (result.lasting_heat && result.lasting_heat->takes_over()) heated += result.lasting_heat->second();
  const double watched =
      result.has_load ? logged(LogQuantity::power) + logged(LogQuantity::current) : coverage.observed_second;
  if (!any_levels || watched <= heated) return;
  if (!run_seconds.empty()) result.typical_run_second = median_of({run_seconds.begin(), run_seconds.end()});
  if (!pause_seconds.empty()) result.typical_pause_second = median_of({pause_seconds.begin(), pause_seconds.end()});
  if (may_run_at_rest)
    result.findings.push_back({"run-share-not-told"});
  else if (rows_show_run_time(result))
    result.run_share = std::min(1.0, result.running_second / (watched - heated));
  else
    result.findings.push_back({"run-time-not-shown"});
  result.never_stops = always_on;
}

/// What a coil's column that stood at one value shows of a defrost: nothing.
void LogAnalyser::Work::forget_standing_coil() {
  const Moves& coil = moves[index_of(LogQuantity::coil_temperature)];
  for (Defrost& one : result.defrosts) {
    if (!one.has_coil || !coil.stood_within(one.start_second, one.end_second)) continue;
    one.has_coil = one.rise_is_seen = false;
    one.plateau_start_second.reset();
    one.plateau_second = one.plateau_uncertainty_second = one.plateau_kelvin = 0.0;
    one.peak_kelvin.reset();
    one.lasting_peak_kelvin.reset();
    one.end_kelvin.reset();
    one.frost.reset();
  }
}

/// A dead logger or a pulled plug: no rule may speak on such a column. A load that stands at nought for a time is the
/// standstill's matter.
void LogAnalyser::Work::leave_out_what_never_moves() {
  constexpr double second_per_hour = 3600.0;
  for (const LogQuantity quantity : log_quantities) {
    const Moves& moved = moves[index_of(quantity)];
    const bool is_temperature = measured_dimension(quantity) == Dimension::temperature;
    if (moved.longest_same_second() < longest_rest_second || (moved.has_moved() && !is_temperature)) continue;
    result.findings.push_back({"column-never-moved",
                               {{"quantity", std::string(name_of(quantity))},
                                {"value", moved.last()},
                                {"hours", moved.longest_same_second() / second_per_hour}},
                               true});
    if (moved.has_moved()) continue;
    if (quantity == LogQuantity::coil_temperature)
      result.has_coil = false;
    else if (quantity == LogQuantity::cabinet_temperature)
      result.has_cabinet = false;
    else
      result.has_load = false;
  }
}

}  // namespace ohmwright::cycles
