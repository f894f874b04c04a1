#include <algorithm>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/analyser_work.hpp>

namespace ohmwright::cycles {

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
  open.start_second = from_second;
  open.second = std::max(0.0, to_second - from_second);
  open.unseen_second = unwatched.within(from_second, to_second);
  const auto add_idle = [&](double start_second, double end_second) {
    const double from = std::max(start_second, from_second);
    const double to = std::min(end_second, to_second);
    open.unseen_second += std::max(0.0, to - from - unwatched.within(from, std::max(from, to)));
  };
  if (result.standstill) add_idle(result.standstill->start_second, result.standstill->end_second);
  if (result.lasting_heat && result.lasting_heat->takes_over())
    add_idle(result.lasting_heat->start_second, result.lasting_heat->end_second);
  const bool all_runs = result.run_share.has_value() && result.run_count == result.runs.size();
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

}  // namespace ohmwright::cycles
