#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/cycles/verdicts/scattered_mean.hpp>
#include <ohmwright/uncertainty/distribution.hpp>

namespace ohmwright::cycles {

namespace {

/// Coil below the cabinet's air while the compressor runs on: five to ten kelvins with the fan, about twice that
/// without (common practice, no source).
constexpr double most_kelvin_below_air = 12.0;
constexpr double logger_half_width_kelvin = 1.0;  // each (common practice, no source)
constexpr double settled_second = 360.0;
constexpr double warmest_freezer_kelvin = melting_point_kelvin - 5.0;

/// Mean of cabinet less coil in the run after a defrost, once it has settled; nothing where it was not logged.
std::optional<double> kelvin_below_air(const Defrost& defrost, const DefrostTrace& trace) {
  const double run_second = defrost.end_second + defrost.drip_second.value_or(0.0);
  const double from = run_second + settled_second;
  const double to = run_second + defrost.recovery_second.value_or(0.0);
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
  return count > 0.0 ? std::optional<double>(sum / count) : std::nullopt;
}

}  // namespace

LogVerdict judge_air_over_coil(const JudgedLog& log) {
  LogVerdict verdict{"air-over-coil", log.analysis.has_coil && log.analysis.has_cabinet ? "no-recovery" : "no-sensors"};
  // The air of another compartment says nothing of the air over the coil.
  if (log.analysis.cabinet_mean_kelvin.value_or(0.0) > warmest_freezer_kelvin) {
    verdict.text = "other-air";
    return verdict;
  }
  std::vector<double> differences;
  for (const DefrostTrace& trace : log.analysis.traces) {
    const Defrost& defrost = log.analysis.defrosts[trace.defrost];
    if (!defrost.has_coil) continue;  // its column stood at one value
    if (const auto kelvin = kelvin_below_air(defrost, trace)) differences.push_back(*kelvin);
  }
  if (differences.empty()) return verdict;
  const ScatteredMean below = scattered_mean(differences);
  const std::array sources{ErrorSource{"coil-logger", {}, Shape::rectangular},
                           ErrorSource{"cabinet-logger", {}, Shape::rectangular},
                           ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, below.degrees_of_freedom}};
  Estimate kelvin(below.mean);
  for (const SourceIndex logger : {SourceIndex{0}, SourceIndex{1}})
    kelvin.add_term(logger, standard_uncertainty_of_half_width(Shape::rectangular, logger_half_width_kelvin));
  if (below.standard_uncertainty > 0.0) kelvin.add_term(2, below.standard_uncertainty);
  judge_quantity(log,
                 {Dimension::temperature_difference, kelvin, sources, -std::numeric_limits<double>::infinity(),
                  most_kelvin_below_air},
                 verdict);
  verdict.arguments = {{"kelvin", below.mean}, {"most_kelvin", most_kelvin_below_air}};
  verdict.text = verdict.outcome == Outcome::within_limits ? "air-moves"
                 : verdict.outcome == Outcome::undecided   ? "unsettled"
                                                           : "no-air";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"no-air"};
  return verdict;
}

}  // namespace ohmwright::cycles
