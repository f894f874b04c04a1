#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/cycles/verdicts/scattered_mean.hpp>
#include <ohmwright/uncertainty/distribution.hpp>

namespace ohmwright::cycles {

namespace {

/// Load beside the heater's, as the drip times show it [W].
double standing_load(const LogAnalysis& analysis) {
  std::vector<double> loads;
  for (const DefrostTrace& trace : analysis.traces) {
    const Defrost& defrost = analysis.defrosts[trace.defrost];
    const double dripped = defrost.end_second + defrost.drip_second.value_or(0.0);
    for (const PlotPoint& point : trace.points)
      if (const float load = point.value[index_of(LogQuantity::power)];
          !std::isnan(load) && point.second >= defrost.end_second && point.second + point.width_second <= dripped)
        loads.push_back(static_cast<double>(load));
  }
  return median_of(std::move(loads));
}

/// Of the heatings that fill enough rows: the load of others is mostly that of rows which they fill in part.
std::vector<double> whole_heater_loads(const LogAnalysis& analysis) {
  std::vector<double> loads;
  for (const Defrost& defrost : analysis.defrosts)
    if (!defrost.is_cut && defrost.heater_load > 0.0 &&
        fills_telling_rows(analysis, defrost.end_second - defrost.start_second))
      loads.push_back(defrost.heater_load);
  return loads;
}

std::size_t whole_heatings(const LogAnalysis& analysis) {
  return static_cast<std::size_t>(
      std::count_if(analysis.defrosts.begin(), analysis.defrosts.end(),
                    [](const Defrost& defrost) { return !defrost.is_cut && defrost.heater_load > 0.0; }));
}

/// What a heater drew less what stood beside it, with where the doubt comes from.
constexpr SourceIndex meter_gain = 0;
constexpr SourceIndex line_voltage = 1;
constexpr SourceIndex standing_source = 2;
constexpr SourceIndex scatter_source = 3;

Estimate heater_watt_of(const LogRatings& ratings, const ScatteredMean& load, double standing_watt) {
  Estimate watt(load.mean - standing_watt);
  watt.add_term(meter_gain, ratings.power_uncertainty_ratio * watt.value());
  // Power goes with the square of the voltage (Joule, Ohm): twice its relative doubt.
  watt.add_term(line_voltage,
                standard_uncertainty_of_half_width(
                    Shape::rectangular, 2.0 * watt.value() * ratings.line_half_width_volt / *ratings.line_volt));
  watt.add_term(standing_source, standard_uncertainty_of_half_width(Shape::rectangular, 0.5 * standing_watt));
  if (load.standard_uncertainty > 0.0) watt.add_term(scatter_source, load.standard_uncertainty);
  return watt;
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
  const std::vector<double> loads = whole_heater_loads(log.analysis);
  const std::size_t whole = whole_heatings(log.analysis);
  // Of few that fill enough rows among many that do not, something else made the rows many; rows that step over a
  // heating are mostly those which it fills in part, however long the coil's rise around it.
  if (2 * loads.size() < whole || loads.empty() || log.analysis.load_is_current ||
      rows_step_over_heating(log.analysis)) {
    const bool are_short = !log.analysis.load_is_current && whole > 0;
    verdict.text = are_short ? "rows-too-far" : "no-heating";
    return verdict;
  }
  if (may_be_cooling_alone(log.analysis)) {
    verdict.text = "may-be-cooling";
    return verdict;
  }
  const double share = *ratings.line_volt / ratings.heater_volt;
  const double to_line = share * share;
  const ScatteredMean load = scattered_mean(loads);
  const std::array sources{ErrorSource{"meter-gain", {}, Shape::normal},
                           ErrorSource{"line-voltage", {}, Shape::rectangular},
                           ErrorSource{"standing-load", {}, Shape::rectangular},
                           ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, load.degrees_of_freedom}};
  const Estimate watt = heater_watt_of(ratings, load, std::min(load.mean, standing_load(log.analysis)));
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
  if (verdict.outcome == Outcome::out_of_limits && is_low) verdict.symptoms = {"little-heat"};
  return verdict;
}

}  // namespace ohmwright::cycles
