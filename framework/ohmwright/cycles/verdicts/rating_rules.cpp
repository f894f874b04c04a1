#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/repeats.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double no_limit = std::numeric_limits<double>::infinity();

/// Load beside the heater's, as the drip times show it [W].
double standing_load(const LogAnalysis& analysis) {
  std::vector<double> loads;
  for (const DefrostTrace& trace : analysis.traces) {
    const Defrost& defrost = analysis.defrosts[trace.defrost];
    const double dripped = defrost.end_second + defrost.drip_second.value_or(0.0);
    for (const PlotPoint& point : trace.points)
      if (point.second >= defrost.end_second && point.second + point.width_second <= dripped)
        loads.push_back(static_cast<double>(point.value[index_of(LogQuantity::power)]));
  }
  if (loads.empty()) return 0.0;
  const auto middle = loads.begin() + static_cast<std::ptrdiff_t>(loads.size() / 2);
  std::nth_element(loads.begin(), middle, loads.end());
  return *middle;
}

/// An interval that the log shows, with its standard uncertainty [s].
struct SeenInterval {
  double second = 0.0;
  double uncertainty_second = 0.0;
};

std::vector<SeenInterval> seen_intervals(const JudgedLog& log) {
  std::vector<SeenInterval> intervals;
  const double edges = duration_uncertainty(log.analysis.coverage.spacing_second);
  const double run = std::max(log.analysis.typical_run_second.value_or(3600.0), 60.0);
  for (const Defrost& defrost : log.analysis.defrosts) {
    const std::optional<double>& value =
        log.ratings.interval_counts_running ? defrost.interval_running_second : defrost.interval_second;
    if (!value || defrost.gap_in_interval_second > 0.0) continue;
    // Each run of the compressor brings its own two edges.
    const double edges_in_it = log.ratings.interval_counts_running ? std::max(1.0, *value / run) : 1.0;
    intervals.push_back({*value, edges * std::sqrt(edges_in_it)});
  }
  return intervals;
}

}  // namespace

LogVerdict judge_heater_power(const JudgedLog& log) {
  LogVerdict verdict{"heater-power", "no-ratings"};
  const LogRatings& ratings = log.ratings;
  if (!ratings.heater_watt) return verdict;
  if (!ratings.line_volt || ratings.heater_volt <= 0.0) {
    verdict.text = "no-line";
    return verdict;
  }
  std::vector<double> loads;
  for (const Defrost& defrost : log.analysis.defrosts)
    if (!defrost.is_cut && defrost.heater_load > 0.0) loads.push_back(defrost.heater_load);
  if (loads.empty() || log.analysis.load_is_current) {
    verdict.text = "no-heating";
    return verdict;
  }
  // Power goes with the square of the voltage (Joule, Ohm).
  const double share = *ratings.line_volt / ratings.heater_volt;
  const double to_line = share * share;
  const double standing = standing_load(log.analysis);
  const auto freedom = static_cast<double>(loads.size()) - 1.0;
  const std::array sources{ErrorSource{"meter-gain", {}, Shape::normal},
                           ErrorSource{"line-voltage", {}, Shape::rectangular},
                           ErrorSource{"standing-load", {}, Shape::rectangular},
                           ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, std::max(1.0, freedom)}};
  double mean = loads.front();
  double scatter = 0.0;
  if (loads.size() > 1) {
    const RepeatedMean repeated = mean_of_repeats(loads);
    mean = repeated.mean;
    scatter = repeated.standard_uncertainty;
  }
  Estimate watt(mean - standing);
  watt.add_term(0, ratings.power_uncertainty_ratio * watt.value());
  watt.add_term(1, standard_uncertainty_of_half_width(
                       Shape::rectangular, 2.0 * watt.value() * ratings.line_half_width_volt / *ratings.line_volt));
  watt.add_term(2, standard_uncertainty_of_half_width(Shape::rectangular, 0.5 * standing));
  if (scatter > 0.0) watt.add_term(3, scatter);
  judge_quantity(
      log,
      {Dimension::power, watt, sources, to_line * ratings.heater_watt->lower, to_line * ratings.heater_watt->upper},
      verdict);
  verdict.arguments = {{"watt", watt.value()},
                       {"least_watt", to_line * ratings.heater_watt->lower},
                       {"most_watt", to_line * ratings.heater_watt->upper},
                       {"line_volt", *ratings.line_volt}};
  const bool is_low = watt.value() < to_line * ratings.heater_watt->nominal;
  verdict.text = verdict.outcome == Outcome::within_limits ? "right"
                 : verdict.outcome == Outcome::undecided   ? "unsettled"
                 : is_low                                  ? "too-little"
                                                           : "too-much";
  if (verdict.outcome == Outcome::out_of_limits && is_low) verdict.symptoms = {"long-defrost"};
  return verdict;
}

LogVerdict judge_interval(const JudgedLog& log) {
  LogVerdict verdict{"interval", "no-ratings"};
  const LogRatings& ratings = log.ratings;
  if (!ratings.interval_most_second) return verdict;
  const std::vector<SeenInterval> intervals = seen_intervals(log);
  if (intervals.empty()) {
    verdict.text = "none-whole";
    return verdict;
  }
  const double least = ratings.interval_least_second.value_or(0.0);
  const double most = *ratings.interval_most_second;
  const std::array sources{ErrorSource{"row-interval", {}, Shape::normal}};
  double shortest = no_limit;
  double longest = 0.0;
  verdict.probability = 2.0;
  for (const SeenInterval& one : intervals) {
    shortest = std::min(shortest, one.second);
    longest = std::max(longest, one.second);
    Estimate second(one.second);
    second.add_term(0, one.uncertainty_second);
    LogVerdict tried{"interval", "in-limits"};
    judge_quantity(log, {Dimension::duration, second, sources, least, most}, tried);
    if (tried.probability >= verdict.probability) continue;
    tried.text = tried.outcome == Outcome::within_limits ? "in-limits"
                 : tried.outcome == Outcome::undecided   ? "unsettled"
                 : one.second > most                     ? "too-long"
                                                         : "too-short";
    verdict = tried;
  }
  verdict.arguments = {
      {"shortest_second", shortest}, {"longest_second", longest}, {"least_second", least}, {"most_second", most}};
  return verdict;
}

LogVerdict judge_air_over_coil(const JudgedLog& log) {
  /// Coil below the cabinet's air while the compressor runs on: five to ten kelvins with the fan, about twice that
  /// without (common practice, no source).
  constexpr double most_kelvin = 12.0;
  constexpr double logger_half_width_kelvin = 1.0;  // each (common practice, no source)
  constexpr double settled_second = 360.0;
  constexpr double warmest_freezer_kelvin = melting_point_kelvin - 5.0;
  LogVerdict verdict{"air-over-coil", log.analysis.has_coil && log.analysis.has_cabinet ? "no-recovery" : "no-sensors"};
  // The air of another compartment says nothing of the air over the coil.
  if (log.analysis.cabinet_mean_kelvin.value_or(0.0) > warmest_freezer_kelvin) {
    verdict.text = "other-air";
    return verdict;
  }
  std::vector<double> differences;
  for (const DefrostTrace& trace : log.analysis.traces) {
    const Defrost& defrost = log.analysis.defrosts[trace.defrost];
    const double from = defrost.end_second + defrost.drip_second.value_or(0.0) + settled_second;
    const double to = from - settled_second + defrost.recovery_second.value_or(0.0);
    double sum = 0.0;
    double count = 0.0;
    for (const PlotPoint& point : trace.points) {
      if (point.second < from || point.second + point.width_second > to) continue;
      const float coil = point.value[index_of(LogQuantity::coil_temperature)];
      const float cabinet = point.value[index_of(LogQuantity::cabinet_temperature)];
      if (std::isnan(coil) || std::isnan(cabinet)) continue;
      sum += static_cast<double>(cabinet - coil);
      count += 1.0;
    }
    if (count > 0.0) differences.push_back(sum / count);
  }
  if (differences.empty()) return verdict;
  const auto freedom = static_cast<double>(differences.size()) - 1.0;
  const std::array sources{ErrorSource{"coil-logger", {}, Shape::rectangular},
                           ErrorSource{"cabinet-logger", {}, Shape::rectangular},
                           ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, std::max(1.0, freedom)}};
  double mean = differences.front();
  double scatter = 0.0;
  if (differences.size() > 1) {
    const RepeatedMean repeated = mean_of_repeats(differences);
    mean = repeated.mean;
    scatter = repeated.standard_uncertainty;
  }
  Estimate kelvin(mean);
  for (const SourceIndex logger : {SourceIndex{0}, SourceIndex{1}})
    kelvin.add_term(logger, standard_uncertainty_of_half_width(Shape::rectangular, logger_half_width_kelvin));
  if (scatter > 0.0) kelvin.add_term(2, scatter);
  judge_quantity(log, {Dimension::temperature_difference, kelvin, sources, -no_limit, most_kelvin}, verdict);
  verdict.arguments = {{"kelvin", mean}, {"most_kelvin", most_kelvin}};
  verdict.text = verdict.outcome == Outcome::within_limits ? "air-moves"
                 : verdict.outcome == Outcome::undecided   ? "unsettled"
                                                           : "no-air";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"no-air"};
  return verdict;
}

}  // namespace ohmwright::cycles
