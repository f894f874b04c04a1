#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/search/end_causes.hpp>
#include <ohmwright/cycles/search/sampler.hpp>
#include <ohmwright/cycles/search/window_search.hpp>

namespace ohmwright::cycles {

namespace {

/// Samples that are searched at once: a fortnight of twenty seconds, some 4 MiB.
constexpr std::size_t window_samples = 65'536;
/// What begins less than this before a window's end is left to the next window, which sees it whole.
constexpr double left_to_next_second = 6.0 * 3600.0;
/// What the next window sees again before the first event that it tells.
constexpr double seen_again_second = 6.0 * 3600.0;
/// The shortest and the rarest defrosts that are known (common practice, no source).
constexpr double shortest_defrost_second = 480.0;
constexpr double longest_interval_second = 54.0 * 3600.0;

/// What is drawn before a defrost, and the least and most behind its heating.
constexpr double drawn_before_second = 1200.0;
constexpr double least_drawn_after_second = 3600.0;
constexpr double most_drawn_after_second = 5400.0;

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

std::vector<PlotPoint> trace_of(const Window& window, const Defrost& defrost) {
  const double asked = defrost.drip_second.value_or(0.0) + defrost.recovery_second.value_or(0.0) + drawn_before_second;
  const double after = std::clamp(asked, least_drawn_after_second, most_drawn_after_second);
  std::vector<PlotPoint> points;
  for (std::size_t i = 0; i < window.size() && window.start[i] < defrost.end_second + after; ++i)
    if (window.start[i] > defrost.start_second - drawn_before_second) points.push_back(plot_point(window, i));
  return points;
}

struct Gap {
  double start_second = 0.0;
  double second = 0.0;
};

}  // namespace

struct LogAnalyser::Work {
  LogRatings ratings;
  LogSampler sampler;
  std::vector<LogSample> samples;
  LogAnalysis result;
  std::vector<Gap> gaps;
  std::vector<float> run_seconds;
  std::vector<float> pause_seconds;
  double told_up_to = -1.0;  ///< events that begin before it are told [s]
  double cabinet_kelvin_second = 0.0;
  double cabinet_second = 0.0;
  double hidden_second = 0.0;
  double observed_second = 0.0;
  double last_run_end = -1.0;
  double sample_spacing_second = 0.0;
  std::vector<double> spacings;
  bool any_levels = false;
  bool always_on = true;

  void search(bool is_last);
  void tell(const Window& window, const WindowEvents& events, double until);
  void tell_runs(const WindowEvents& events, double until);
  void cover(const Window& window, double until);
  void set_intervals();
  void say();
};

LogAnalyser::LogAnalyser(const LogRatings& ratings) : work_(std::make_unique<Work>()) { work_->ratings = ratings; }
LogAnalyser::~LogAnalyser() = default;
LogAnalyser::LogAnalyser(LogAnalyser&&) noexcept = default;
LogAnalyser& LogAnalyser::operator=(LogAnalyser&&) noexcept = default;

void LogAnalyser::take(std::span<const LogRow> rows) {
  work_->sampler.take(rows, work_->samples);
  if (work_->samples.size() >= window_samples) work_->search(false);
}

LogAnalysis LogAnalyser::finish() {
  Work& work = *work_;
  work.sampler.finish(work.samples);
  if (!work.samples.empty()) work.search(true);
  tell_end_causes(work.ratings, work.sample_spacing_second, work.result.has_load, work.result.defrosts);
  work.set_intervals();
  work.say();
  return std::move(work.result);
}

void LogAnalyser::Work::search(bool is_last) {
  const Window window = window_of(samples, ratings);
  const WindowEvents events = search_window(window, ratings);
  const double end = window.end_of(window.size() - 1);
  const double until = is_last ? end + 1.0 : std::max(end - left_to_next_second, window.start[window.size() * 3 / 4]);
  tell(window, events, until);
  told_up_to = until;
  const auto keep =
      std::lower_bound(samples.begin(), samples.end(), until - seen_again_second,
                       [](const LogSample& sample, double second) { return sample.first_second < second; });
  samples.erase(samples.begin(), std::min(keep, samples.begin() + static_cast<std::ptrdiff_t>(samples.size() / 2)));
  if (is_last) samples.clear();
}

void LogAnalyser::Work::tell(const Window& window, const WindowEvents& events, double until) {
  result.has_load = result.has_load || !window.load.empty();
  result.load_is_current = window.load_is_current;
  result.has_coil = result.has_coil || !window.coil.empty();
  result.has_cabinet = result.has_cabinet || !window.cabinet.empty();
  sample_spacing_second = window.spacing_second;
  result.thresholds = events.thresholds;
  result.coverage.gap_limit_second = window.gap_limit_second;
  cover(window, until);
  // An event that two windows put at slightly different times is told once.
  const double last = result.defrosts.empty() ? -1.0 : result.defrosts.back().end_second;
  for (const Defrost& defrost : events.defrosts) {
    if (defrost.start_second < told_up_to || defrost.start_second >= until || defrost.start_second < last) continue;
    ++result.defrost_count;
    if (result.defrosts.size() >= LogAnalysis::most_defrosts) continue;
    if (result.traces.size() >= LogAnalysis::most_traces) result.traces.erase(result.traces.begin());
    result.traces.push_back({result.defrosts.size(), trace_of(window, defrost)});
    result.defrosts.push_back(defrost);
  }
  for (const DoorOpening& door : events.doors) {
    if (door.start_second < told_up_to || door.start_second >= until) continue;
    ++result.door_count;
    if (result.doors.size() < LogAnalysis::most_doors) result.doors.push_back(door);
  }
  tell_runs(events, until);
}

void LogAnalyser::Work::tell_runs(const WindowEvents& events, double until) {
  any_levels = any_levels || events.compressor.levels_found;
  always_on = always_on && events.compressor.never_stops;
  if (told_up_to < 0.0) result.short_pulses = 0;
  result.short_pulses += events.compressor.short_pulses;
  for (const CompressorRun& run : events.compressor.runs) {
    if (run.start_second < told_up_to || run.start_second >= until || run.start_second < last_run_end) continue;
    ++result.run_count;
    const double lasted = run.end_second - run.start_second;
    result.running_second += lasted;
    if (run_seconds.size() < LogAnalysis::most_runs) {
      if (run.start_is_seen && run.end_is_seen) run_seconds.push_back(static_cast<float>(lasted));
      if (last_run_end >= 0.0 && run.start_is_seen)
        pause_seconds.push_back(static_cast<float>(run.start_second - last_run_end));
    }
    last_run_end = run.end_second;
    if (result.runs.size() < LogAnalysis::most_runs) result.runs.push_back(run);
  }
}

void LogAnalyser::Work::cover(const Window& window, double until) {
  LogCoverage& coverage = result.coverage;
  std::vector<double> row_spacings;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    if (i % 16 == 0 && samples[i].rows > 1 && samples[i].last_second > samples[i].first_second)
      row_spacings.push_back((samples[i].last_second - samples[i].first_second) / (samples[i].rows - 1));
    if (window.start[i] < told_up_to || window.start[i] >= until) continue;
    observed_second += window.width[i];
    result.outline.add(plot_point(window, i));
    if (!window.load_mean.empty() && !window.load_is_current)
      result.energy_joule += window.load_mean[i] * window.width[i];
    if (!window.cabinet.empty()) {
      cabinet_kelvin_second += window.cabinet[i] * window.width[i];
      cabinet_second += window.width[i];
    }
    coverage.span_second = window.end_of(i);
    if (window.gap_after[i] == 0) continue;
    const Gap gap{window.end_of(i), window.start[i + 1] - window.end_of(i)};
    ++coverage.gaps;
    coverage.gap_second += gap.second;
    coverage.longest_gap_second = std::max(coverage.longest_gap_second, gap.second);
    if (gap.second >= shortest_defrost_second) hidden_second += gap.second;
    if (gaps.size() < LogAnalysis::most_runs) gaps.push_back(gap);
  }
  const bool dense = row_spacings.size() * 32 > samples.size();
  coverage.spacing_second = dense ? median_of(std::move(row_spacings)) : window.spacing_second;
  coverage.missing_rows = static_cast<std::uint64_t>(coverage.gap_second / std::max(coverage.spacing_second, 0.1));
}

void LogAnalyser::Work::set_intervals() {
  for (std::size_t i = 1; i < result.defrosts.size(); ++i) {
    Defrost& now = result.defrosts[i];
    const Defrost& before = result.defrosts[i - 1];
    now.interval_second = now.start_second - before.start_second;
    double running = 0.0;
    auto run = std::lower_bound(result.runs.begin(), result.runs.end(), before.end_second,
                                [](const CompressorRun& one, double second) { return one.end_second < second; });
    for (; run != result.runs.end() && run->start_second < now.start_second; ++run)
      running +=
          std::max(0.0, std::min(run->end_second, now.start_second) - std::max(run->start_second, before.end_second));
    if (any_levels && result.run_count == result.runs.size()) now.interval_running_second = running;
    auto gap = std::lower_bound(gaps.begin(), gaps.end(), before.end_second,
                                [](const Gap& one, double second) { return one.start_second < second; });
    for (; gap != gaps.end() && gap->start_second < now.start_second; ++gap)
      if (gap->second >= shortest_defrost_second) now.gap_in_interval_second += gap->second;
  }
}

void LogAnalyser::Work::say() {
  std::vector<LogFinding>& findings = result.findings;
  LogCoverage& coverage = result.coverage;
  if (sampler.rows() == 0) {
    findings.push_back({"log-has-no-rows"});
    return;
  }
  if (cabinet_second > 0.0) result.cabinet_mean_kelvin = cabinet_kelvin_second / cabinet_second;
  coverage.hidden_share = coverage.span_second > 0.0 ? hidden_second / coverage.span_second : 0.0;
  double heated = 0.0;
  std::size_t without_rise = 0;
  std::size_t without_heater = 0;
  bool weighed = false;
  for (const Defrost& defrost : result.defrosts) {
    heated += defrost.end_second - defrost.start_second;
    if (defrost.has_coil && !defrost.rise_is_seen) ++without_rise;
    if (result.has_load && !defrost.heater_is_seen) ++without_heater;
    weighed = weighed || defrost.frost.has_value();
  }
  if (any_levels && observed_second > heated) {
    result.run_share = std::min(1.0, result.running_second / (observed_second - heated));
    result.typical_run_second = median_of({run_seconds.begin(), run_seconds.end()});
    result.typical_pause_second = median_of({pause_seconds.begin(), pause_seconds.end()});
    if (run_seconds.empty()) result.typical_run_second.reset();
    if (pause_seconds.empty()) result.typical_pause_second.reset();
    result.never_stops = always_on;
  }
  if (hidden_second > 0.0)
    findings.push_back({"gaps-can-hide-defrosts",
                        {{"share", coverage.hidden_share},
                         {"longest_second", coverage.longest_gap_second},
                         {"gaps", static_cast<double>(coverage.gaps)}}});
  if (result.defrosts.empty()) {
    findings.push_back({"no-defrost-seen", {{"span_second", coverage.span_second}}});
    if (coverage.span_second < longest_interval_second)
      findings.push_back(
          {"log-shorter-than-an-interval",
           {{"span_second", coverage.span_second}, {"longest_interval_second", longest_interval_second}}});
  }
  if (coverage.span_second < 3600.0) findings.push_back({"log-is-short", {{"span_second", coverage.span_second}}});
  if (result.has_load && !any_levels) findings.push_back({"load-has-one-level"});
  if (!result.has_load) findings.push_back({"no-load-in-log"});
  if (result.load_is_current) findings.push_back({"current-without-line-voltage"});
  if (!result.has_coil && !result.has_cabinet) findings.push_back({"no-temperature-in-log"});
  // No compressor may run for so short a time: the column of time may count something else than seconds.
  const bool runs_are_short = result.run_count >= 5 && result.typical_run_second && *result.typical_run_second < 120.0;
  const bool pulses_only = result.short_pulses > 20 && result.short_pulses > 3 * result.run_count;
  if (runs_are_short || pulses_only)
    findings.push_back({"time-step-implausible",
                        {{"typical_run_second", result.typical_run_second.value_or(0.0)},
                         {"short_pulses", static_cast<double>(result.short_pulses)}},
                        true});
  if (weighed)
    findings.push_back({"melting-share-assumed",
                        {{"share", ratings.melting_share}, {"uncertainty", ratings.melting_share_uncertainty}}});
  if (without_rise > 0) findings.push_back({"heat-without-rise", {{"count", static_cast<double>(without_rise)}}});
  if (without_heater > 0) findings.push_back({"rise-without-heater", {{"count", static_cast<double>(without_heater)}}});
  if (result.run_count > result.runs.size() || result.defrost_count > result.defrosts.size() ||
      result.door_count > result.doors.size())
    findings.push_back(
        {"lists-are-cut",
         {{"runs", static_cast<double>(result.run_count)}, {"defrosts", static_cast<double>(result.defrost_count)}}});
}

}  // namespace ohmwright::cycles
