#include <array>
#include <cmath>
#include <limits>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t fewest_masses = 4;
/// Growth of the frost from one defrost to the next, as a share of the mean, that weather and use explain (common
/// practice, no source).
constexpr double usual_growth = 0.05;

}  // namespace

LogVerdict judge_frost_load(const JudgedLog& log) {
  LogVerdict verdict{"frost-load", "too-few"};
  // Where no power gives a mass, the plateau itself is in proportion to it.
  std::vector<double> loads;
  for (const Defrost& defrost : log.analysis.defrosts)
    if (!defrost.is_cut && defrost.plateau_second > 0.0)
      loads.push_back(defrost.frost ? defrost.frost->kilogram : defrost.plateau_second);
  verdict.arguments = {{"count", static_cast<double>(loads.size())}};
  if (loads.size() < fewest_masses) return verdict;
  // Straight line through the loads against their number (ordinary least squares).
  const auto n = static_cast<double>(loads.size());
  const double middle = 0.5 * (n - 1.0);
  double mean = 0.0;
  for (const double load : loads) mean += load / n;
  double cross = 0.0;
  double square = 0.0;
  for (std::size_t i = 0; i < loads.size(); ++i) {
    const double along = static_cast<double>(i) - middle;
    cross += along * (loads[i] - mean);
    square += along * along;
  }
  const double slope = cross / square;
  double residual = 0.0;
  for (std::size_t i = 0; i < loads.size(); ++i)
    residual += std::pow(loads[i] - mean - slope * (static_cast<double>(i) - middle), 2.0);
  const double freedom = n - 2.0;
  const std::array sources{ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, freedom}};
  Estimate growth(slope / mean);
  growth.add_term(0, std::sqrt(residual / freedom / square) / mean);
  judge_quantity(log, {Dimension::ratio, growth, sources, -std::numeric_limits<double>::infinity(), usual_growth},
                 verdict);
  verdict.text = verdict.outcome == Outcome::out_of_limits ? "grows" : "steady";
  if (verdict.outcome == Outcome::undecided) verdict.text = "scatters";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"frost-whole-coil"};
  return verdict;
}

}  // namespace ohmwright::cycles
