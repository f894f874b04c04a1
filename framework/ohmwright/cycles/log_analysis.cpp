#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <utility>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/log_findings.hpp>
#include <ohmwright/cycles/search/end_causes.hpp>
#include <ohmwright/cycles/search/sampler.hpp>
#include <ohmwright/cycles/search/window_search.hpp>
#include <ohmwright/cycles/standstill.hpp>

namespace ohmwright::cycles {

namespace {

/// Samples that are searched at once: a fortnight of twenty seconds, some 4 MiB.
constexpr std::size_t window_samples = 65'536;
/// What begins less than this before a window's end is left to the next window, which sees it whole.
constexpr double left_to_next_second = 6.0 * 3600.0;
/// What the next window sees again before the first event that it tells.
constexpr double seen_again_second = 6.0 * 3600.0;
/// Of fewer samples a usual interval says little.
constexpr std::size_t fewest_telling_samples = 100;
/// The shortest defrosts that are known (common practice, no source).
constexpr double shortest_defrost_second = 480.0;
/// A value that never moved for so long is no reading: all that cools and defrosts moves (common practice, no source).
constexpr double longest_rest_second = 12.0 * 3600.0;

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

/// Stretches in which something was not logged, in order.
class Unlogged {
 public:
  struct Gap {
    double start_second = 0.0;
    double end_second = 0.0;
  };

  /// It was logged from `start_second` to `end_second`; gaps shorter than `shortest_second` do not count.
  void logged(double start_second, double end_second, double shortest_second) {
    close(start_second, shortest_second);
    up_to_second_ = end_second;
  }
  /// The log ends here.
  void close(double second, double shortest_second) {
    if (second - up_to_second_ < shortest_second) return;
    total_second_ += second - up_to_second_;
    if (gaps_.size() < LogAnalysis::most_runs) gaps_.push_back({up_to_second_, second});
    up_to_second_ = second;
  }

  double total_second() const { return total_second_; }
  /// How much of [from, to) was not logged [s].
  double within(double from_second, double to_second) const {
    double sum = 0.0;
    auto gap = std::lower_bound(gaps_.begin(), gaps_.end(), from_second,
                                [](const Gap& one, double second) { return one.end_second < second; });
    for (; gap != gaps_.end() && gap->start_second < to_second; ++gap)
      sum += std::max(0.0, std::min(gap->end_second, to_second) - std::max(gap->start_second, from_second));
    return sum;
  }

 private:
  std::vector<Gap> gaps_;
  double up_to_second_ = 0.0;
  double total_second_ = 0.0;
};

/// Changes of a temperature that no coil and no air makes: more than 0.3 K/s over 8 K, as often as it may not be a
/// probe that somebody moved (common practice, no source).
class QuickChanges {
 public:
  void take(double second, double kelvin) {
    const double passed = second - last_second_;
    const double change = kelvin - last_kelvin_;
    constexpr double least_kelvin = 8.0;
    constexpr double kelvin_per_second = 0.3;
    if (change > least_kelvin && change > kelvin_per_second * passed) {
      ++count_;
      if (change > kelvin_) {
        kelvin_ = change;
        second_ = passed;
      }
    }
    last_second_ = second;
    last_kelvin_ = kelvin;
  }
  void tell(std::vector<LogFinding>& findings) const {
    constexpr int chance_changes = 3;
    if (count_ <= chance_changes) return;
    findings.push_back({"temperature-changes-implausible",
                        {{"kelvin", kelvin_}, {"second", second_}, {"count", static_cast<double>(count_)}},
                        true});
  }

 private:
  double last_second_ = 0.0;
  double last_kelvin_ = LogRow::none;
  double kelvin_ = 0.0;
  double second_ = 0.0;
  int count_ = 0;
};

/// Whether a column moves at all, and for how long it did not.
class Moves {
 public:
  void take(double value, double width_second) {
    has_moved_ = has_moved_ || (count_++ > 0 && value != last_);
    same_second_ = value == last_ ? same_second_ + width_second : width_second;
    longest_same_second_ = std::max(longest_same_second_, same_second_);
    last_ = value;
  }
  bool has_moved() const { return has_moved_; }
  double longest_same_second() const { return longest_same_second_; }
  /// The value that it had last.
  double last() const { return last_; }

 private:
  std::uint64_t count_ = 0;
  double last_ = LogRow::none;
  double same_second_ = 0.0;
  double longest_same_second_ = 0.0;
  bool has_moved_ = false;
};

}  // namespace

struct LogAnalyser::Work {
  LogRatings ratings;
  LogSampler sampler;
  std::vector<LogSample> samples;
  LogAnalysis result;
  Unlogged unwatched;  ///< nothing that shows defrosts
  Unlogged runs_unseen;
  std::array<Moves, log_quantity_count> moves;
  QuickChanges coil_changes;
  std::vector<float> run_seconds;
  std::vector<float> pause_seconds;
  double told_up_to = -1.0;  ///< events that begin before it are told [s]
  double cabinet_kelvin_second = 0.0;
  double last_run_end = -1.0;
  double sample_spacing_second = 0.0;
  bool any_levels = false;
  bool always_on = true;

  void search(bool is_last);
  void tell(const Window& window, const WindowEvents& events, double until);
  void tell_runs(const WindowEvents& events, double until);
  void cover(const Window& window, double until);
  void cover_sample(const Window& window, std::size_t i);
  void set_intervals();
  double running_within(double from_second, double to_second) const;
  OpenInterval open_interval(double from_second, double to_second) const;
  void set_figures();
  void leave_out_what_never_moves();
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
  LogAnalysis& result = work.result;
  work.unwatched.close(result.coverage.span_second, shortest_defrost_second);
  work.runs_unseen.close(result.coverage.span_second, shortest_defrost_second);
  tell_end_causes(work.ratings, work.sample_spacing_second, result.defrosts);
  work.set_figures();
  result.standstill = find_standstill(
      result, [&](double from_second, double to_second) { return work.runs_unseen.within(from_second, to_second); });
  work.set_intervals();
  tell_findings(work.ratings, work.sampler.rows(), work.any_levels, result);
  work.coil_changes.tell(result.findings);
  work.leave_out_what_never_moves();
  return std::move(result);
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
  for (const double second : events.compressor.short_pulse_seconds)
    if (second >= told_up_to && second < until) ++result.short_pulses;
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
    cover_sample(window, i);
    if (window.gap_after[i] == 0) continue;
    const double gap_second = window.start[i + 1] - window.end_of(i);
    ++coverage.gaps;
    coverage.gap_second += gap_second;
    coverage.longest_gap_second = std::max(coverage.longest_gap_second, gap_second);
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
    moves[index_of(quantity)].take(values[i], width);
    return true;
  };
  const bool load = take(window.load_mean, window.load_is_current ? LogQuantity::current : LogQuantity::power);
  const bool coil = take(window.coil, LogQuantity::coil_temperature);
  const bool cabinet = take(window.cabinet, LogQuantity::cabinet_temperature);
  if (coil) coil_changes.take(window.start[i], window.coil[i]);
  if (load && !window.load_is_current) result.energy_joule += window.load_mean[i] * width;
  if (cabinet) cabinet_kelvin_second += window.cabinet[i] * width;
  const bool only_cabinet = !result.has_load && !result.has_coil;
  if (load || coil || (only_cabinet && cabinet)) unwatched.logged(window.start[i], end, shortest_defrost_second);
  if (result.has_load ? load : (coil || cabinet)) runs_unseen.logged(window.start[i], end, shortest_defrost_second);
}

double LogAnalyser::Work::running_within(double from_second, double to_second) const {
  double running = 0.0;
  auto run = std::lower_bound(result.runs.begin(), result.runs.end(), from_second,
                              [](const CompressorRun& one, double second) { return one.end_second < second; });
  for (; run != result.runs.end() && run->start_second < to_second; ++run)
    running += std::max(0.0, std::min(run->end_second, to_second) - std::max(run->start_second, from_second));
  return running;
}

OpenInterval LogAnalyser::Work::open_interval(double from_second, double to_second) const {
  OpenInterval open;
  open.second = std::max(0.0, to_second - from_second);
  open.unseen_second = unwatched.within(from_second, to_second);
  if (const std::optional<Standstill>& stood = result.standstill)
    open.unseen_second += std::max(
        0.0, std::min(stood->end_second, to_second) - std::max(stood->start_second, from_second) -
                 unwatched.within(std::max(stood->start_second, from_second), std::min(stood->end_second, to_second)));
  const bool all_runs = any_levels && result.run_count == result.runs.size();
  if (all_runs && runs_unseen.within(from_second, to_second) <= 0.0)
    open.running_second = running_within(from_second, to_second);
  return open;
}

void LogAnalyser::Work::set_intervals() {
  const double end = result.coverage.span_second;
  std::vector<Defrost>& defrosts = result.defrosts;
  for (std::size_t i = 1; i < defrosts.size(); ++i) {
    Defrost& now = defrosts[i];
    const Defrost& before = defrosts[i - 1];
    now.interval_second = now.start_second - before.start_second;
    const OpenInterval between = open_interval(before.end_second, now.start_second);
    now.interval_running_second = between.running_second;
    now.gap_in_interval_second = between.unseen_second;
  }
  result.before_first = open_interval(0.0, defrosts.empty() ? end : defrosts.front().start_second);
  // Where not every defrost is listed, the last one of the list is not the last one of the log.
  if (defrosts.empty() || result.defrost_count > defrosts.size()) return;
  result.after_last = open_interval(defrosts.back().end_second, end);
  result.after_last.second = end - defrosts.back().start_second;
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
  const double watched =
      result.has_load ? logged(LogQuantity::power) + logged(LogQuantity::current) : coverage.observed_second;
  if (!any_levels || watched <= heated) return;
  result.run_share = std::min(1.0, result.running_second / (watched - heated));
  if (!run_seconds.empty()) result.typical_run_second = median_of({run_seconds.begin(), run_seconds.end()});
  if (!pause_seconds.empty()) result.typical_pause_second = median_of({pause_seconds.begin(), pause_seconds.end()});
  result.never_stops = always_on;
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
