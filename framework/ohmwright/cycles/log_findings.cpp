#include <algorithm>
#include <string>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/log_findings.hpp>

namespace ohmwright::cycles {

namespace {

/// A column that has values for less than the log's rows.
constexpr double worth_saying = 0.01;  // of the time

void tell_coverage(LogAnalysis& analysis) {
  std::vector<LogFinding>& findings = analysis.findings;
  const LogCoverage& coverage = analysis.coverage;
  if (coverage.hidden_share > 0.0)
    findings.push_back({"gaps-can-hide-defrosts",
                        {{"share", coverage.hidden_share},
                         {"longest_second", coverage.longest_gap.second},
                         {"gaps", static_cast<double>(coverage.gaps)}}});
  for (const LogQuantity quantity : log_quantities) {
    const double logged = coverage.logged_second[index_of(quantity)];
    const double missing = coverage.observed_second - logged;
    if (logged <= 0.0 || missing <= worth_saying * coverage.observed_second) continue;
    findings.push_back({"column-has-holes",
                        {{"quantity", std::string(name_of(quantity))},
                         {"share", missing / coverage.observed_second},
                         {"percent", 100.0 * missing / coverage.observed_second},
                         {"second", missing}}});
  }
  if (analysis.defrosts.empty()) {
    findings.push_back({"no-defrost-seen", {{"span_second", coverage.span_second}}});
    if (coverage.span_second < rarest_interval_second)
      findings.push_back(
          {"log-shorter-than-an-interval",
           {{"span_second", coverage.span_second}, {"longest_interval_second", rarest_interval_second}}});
  }
  if (coverage.span_second < 3600.0) findings.push_back({"log-is-short", {{"span_second", coverage.span_second}}});
}

void tell_quantities(bool has_levels, LogAnalysis& analysis) {
  std::vector<LogFinding>& findings = analysis.findings;
  if (analysis.has_load && !has_levels) findings.push_back({"load-has-one-level"});
  if (analysis.one_level_second > 0.0)
    findings.push_back({"load-cools-or-heats", {{"minutes", analysis.one_level_second / 60.0}}});
  if (!analysis.has_load) findings.push_back({"no-load-in-log"});
  constexpr double hides_cycles_second = 300.0;  // rows as far apart, over more than some cycles
  const LogCoverage& coverage = analysis.coverage;
  if (!analysis.has_load && !has_levels && (analysis.has_coil || analysis.has_cabinet) &&
      coverage.spacing_second >= hides_cycles_second && coverage.span_second > 50.0 * hides_cycles_second)
    findings.push_back({"cycles-not-shown"});
  if (analysis.load_is_current) findings.push_back({"current-without-line-voltage"});
  if (!analysis.has_coil && !analysis.has_cabinet) findings.push_back({"no-temperature-in-log"});
}

/// No compressor may run for so short a time, and no defrosts come so often: the column of time may count something
/// else than seconds.
void tell_time_step(LogAnalysis& analysis) {
  constexpr double shortest_usual_run_second = 120.0;
  const bool runs_are_short = analysis.run_count >= 5 && analysis.typical_run_second &&
                              *analysis.typical_run_second < shortest_usual_run_second;
  const bool pulses_only = analysis.short_pulses > 20 && analysis.short_pulses > 3 * analysis.run_count;
  // No compressor starts against the pressure that it stopped at, and controls make it wait for some minutes.
  const bool pauses_are_short = analysis.short_pauses > 20;
  if (!runs_are_short && !pulses_only && !pauses_are_short) return;
  constexpr double pulse_second = 60.0;
  const double typical_second = analysis.typical_run_second.value_or(0.0);
  analysis.findings.push_back(
      {"time-step-implausible",
       {{"typical_run_second", runs_are_short ? typical_second : std::min(typical_second, pulse_second)},
        {"short_pulses", static_cast<double>(analysis.short_pulses)}},
       true});
}

void tell_defrosts(const LogRatings& ratings, LogAnalysis& analysis) {
  const auto count = [&](auto is_odd) {
    return static_cast<double>(std::count_if(analysis.defrosts.begin(), analysis.defrosts.end(), is_odd));
  };
  const double weighed = count([](const Defrost& one) { return one.frost.has_value(); });
  const double without_rise = count([](const Defrost& one) { return one.has_coil && !one.rise_is_seen; });
  const double without_heater = count([](const Defrost& one) { return one.has_load && !one.heater_is_seen; });
  const double like_compressor = count([](const Defrost& one) { return one.draws_like_compressor; });
  if (like_compressor > 0.0 && !ratings.heater_watt)
    analysis.findings.push_back({"heat-draws-like-compressor", {{"count", like_compressor}}});
  const bool by_air = !analysis.has_load && !analysis.has_coil && !analysis.defrosts.empty();
  if (by_air) analysis.findings.push_back({"defrosts-by-air-alone"});
  if (weighed > 0.0)
    analysis.findings.push_back(
        {"melting-share-assumed",
         {{"share", ratings.melting_share}, {"uncertainty", ratings.melting_share_uncertainty}}});
  if (without_rise > 0.0) analysis.findings.push_back({"heat-without-rise", {{"count", without_rise}}});
  if (without_heater > 0.0) analysis.findings.push_back({"rise-without-heater", {{"count", without_heater}}});
}

}  // namespace

void tell_findings(const LogRatings& ratings, std::uint64_t rows, bool has_levels, LogAnalysis& analysis) {
  if (rows == 0) {
    analysis.findings.push_back({"log-has-no-rows"});
    return;
  }
  tell_coverage(analysis);
  tell_quantities(has_levels, analysis);
  tell_time_step(analysis);
  tell_defrosts(ratings, analysis);
  if (analysis.run_count > analysis.runs.size() || analysis.defrost_count > analysis.defrosts.size() ||
      analysis.door_count > analysis.doors.size())
    analysis.findings.push_back({"lists-are-cut",
                                 {{"runs", static_cast<double>(analysis.run_count)},
                                  {"defrosts", static_cast<double>(analysis.defrost_count)}}});
}

}  // namespace ohmwright::cycles
