#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/cycles/analyser_work.hpp>
#include <ohmwright/cycles/guessed_units.hpp>
#include <ohmwright/cycles/heat/lasting_heat.hpp>
#include <ohmwright/cycles/log_findings.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/search/end_causes.hpp>
#include <ohmwright/cycles/standstill.hpp>

namespace ohmwright::cycles {

namespace {

/// Samples that are searched at once: a fortnight of twenty seconds, some 4 MiB.
constexpr std::size_t window_samples = 65'536;
/// What begins less than this before a window's end is left to the next window, which sees it whole.
constexpr double left_to_next_second = 6.0 * 3600.0;
/// What the next window sees again before the first event that it tells.
constexpr double seen_again_second = 6.0 * 3600.0;

/// What is drawn before a defrost, and the least and most behind its heating.
constexpr double drawn_before_second = 1200.0;
constexpr double least_drawn_after_second = 3600.0;
constexpr double most_drawn_after_second = 5400.0;

std::vector<PlotPoint> trace_of(const Window& window, const Defrost& defrost) {
  const double asked = defrost.drip_second.value_or(0.0) + defrost.recovery_second.value_or(0.0) + drawn_before_second;
  const double after = std::clamp(asked, least_drawn_after_second, most_drawn_after_second);
  std::vector<PlotPoint> points;
  for (std::size_t i = 0; i < window.size() && window.start[i] < defrost.end_second + after; ++i)
    if (window.start[i] > defrost.start_second - drawn_before_second) points.push_back(plot_point(window, i));
  return points;
}

}  // namespace

LogAnalyser::LogAnalyser(const LogRatings& ratings) : work_(std::make_unique<Work>()) { work_->ratings = ratings; }
LogAnalyser::~LogAnalyser() = default;
LogAnalyser::LogAnalyser(LogAnalyser&&) noexcept = default;
LogAnalyser& LogAnalyser::operator=(LogAnalyser&&) noexcept = default;

void LogAnalyser::take(std::span<const LogRow> rows) {
  work_->held.take(rows, [this](std::span<const LogRow> filled) { work_->take(filled); });
}

LogAnalysis LogAnalyser::finish() {
  Work& work = *work_;
  work.held.finish([&work](std::span<const LogRow> filled) { work.take(filled); });
  work.sampler.finish(work.samples);
  if (!work.samples.empty()) work.search(true);
  LogAnalysis& result = work.result;
  work.unwatched.close(result.coverage.span_second, shortest_defrost_second);
  work.runs_unseen.close(result.coverage.span_second, shortest_defrost_second);
  work.set_lasting_heat();
  work.forget_standing_coil();
  tell_end_causes(work.ratings, work.sample_spacing_second, result.defrosts);
  work.set_figures();
  result.coil_thaws = work.coil_thaws.count();
  result.standstill = find_standstill(
      result, [&](double from_second, double to_second) { return work.runs_unseen.within(from_second, to_second); });
  // What heats on does not stand still, however warm it gets.
  if (result.lasting_heat && result.standstill && result.standstill->end_second > result.lasting_heat->start_second &&
      result.standstill->start_second < result.lasting_heat->end_second)
    result.standstill.reset();
  work.set_intervals();
  tell_findings(work.ratings, work.sampler.rows(), work.any_levels, result);
  if (const std::optional<double> second = work.held.longest_second())
    result.findings.push_back(
        {result.has_load ? "load-written-on-change" : "temperature-written-on-change", {{"minutes", *second / 60.0}}});
  work.coil_changes.tell(result.findings);
  work.leave_out_what_never_moves();
  return std::move(result);
}

LogAnalysis LogAnalyser::finish(const LogReader& reader) {
  LogAnalysis result = finish();
  result.unit_in_doubt = reader.doubtful_units();
  doubt_guessed_units(reader.findings(), result);
  for (const LogFinding& one : reader.findings())
    if (one.id == "times-went-back" || one.id == "clock-counts-twelve-hours") result.time_in_doubt = true;
  for (const LogFinding& one : reader.findings())
    if (!result.has_coil && one.id == "column-not-used" && one.find("looks_like") != nullptr)
      result.findings.push_back({"column-may-be-coil", {{"column", one.text("column")}}, true});
  return result;
}

void LogAnalyser::Work::set_lasting_heat() {
  result.lasting_heat = find_lasting_heat(result, ratings);
  if (!result.lasting_heat || !result.lasting_heat->takes_over()) return;
  const LastingHeat& heat = *result.lasting_heat;
  const auto is_mostly_within = [&](double start_second, double end_second) {
    const double within = std::min(end_second, heat.end_second) - std::max(start_second, heat.start_second);
    return within > 0.5 * (end_second - start_second);
  };
  std::erase_if(result.runs, [&](const CompressorRun& run) {
    if (!is_mostly_within(run.start_second, run.end_second)) return false;
    result.running_second -= run.end_second - run.start_second;
    --result.run_count;
    return true;
  });
  forget_defrosts([&](const Defrost& one) { return is_mostly_within(one.start_second, one.end_second); });
  // What began within it has no end that a rule could judge.
  for (Defrost& defrost : result.defrosts)
    if (defrost.end_second > heat.start_second && defrost.start_second < heat.end_second) defrost.is_cut = true;
}

void LogAnalyser::Work::forget_defrosts(FunctionRef<bool(const Defrost&)> is_none) {
  std::vector<Defrost> kept;
  std::vector<DefrostTrace> traces;
  for (std::size_t i = 0; i < result.defrosts.size(); ++i) {
    if (is_none(result.defrosts[i])) {
      --result.defrost_count;
      continue;
    }
    for (DefrostTrace& trace : result.traces)
      if (trace.defrost == i) traces.push_back({kept.size(), std::move(trace.points)});
    kept.push_back(result.defrosts[i]);
  }
  result.defrosts = std::move(kept);
  result.traces = std::move(traces);
}

void LogAnalyser::Work::take(std::span<const LogRow> rows) {
  sampler.take(rows, samples);
  if (samples.size() >= window_samples) search(false);
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
  // A logger whose interval was changed gives the doubt of the longer one to all.
  const bool is_telling = window.size() > fewest_telling_samples || sample_spacing_second <= 0.0;
  if (is_telling) sample_spacing_second = std::max(sample_spacing_second, window.spacing_second);
  result.thresholds = events.thresholds;
  result.one_level_second += events.one_level_second;
  result.short_stand_outs += events.short_stand_outs;
  result.frequent_heatings += events.too_frequent;
  result.weak_heatings += events.weak_heatings;
  result.weak_heating_load = std::max(result.weak_heating_load, events.weak_heating_load);
  result.heats_at_only_level = result.heats_at_only_level || events.heats_at_only_level;
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
  // While a log of the load lacks it, runs by temperature would be added to runs of another sort.
  if (!result.has_load || !window.load.empty()) tell_runs(events, until);
}

void LogAnalyser::Work::tell_runs(const WindowEvents& events, double until) {
  any_levels = any_levels || events.compressor.levels_found;
  always_on = always_on && events.compressor.never_stops;
  result.load_is_modulated = result.load_is_modulated || events.compressor.is_modulated;
  result.speed_varies = result.speed_varies || events.compressor.speed_varies;
  may_run_at_rest = may_run_at_rest || events.compressor.may_run_at_rest;
  for (const double second : events.compressor.short_pulse_seconds)
    if (second >= told_up_to && second < until) ++result.short_pulses;
  for (const double second : events.compressor.short_pause_seconds) {
    if (second < told_up_to || second >= until) continue;
    ++result.short_pulses;
    ++result.short_pauses;
  }
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

}  // namespace ohmwright::cycles
