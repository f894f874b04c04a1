#include <algorithm>
#include <array>
#include <limits>
#include <numeric>
#include <optional>
#include <vector>

#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/uncertainty/least_squares.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t fewest_masses = 4;
/// Growth of the frost in an hour of running from one defrost to the next, as a share of the mean, that weather and use
/// explain (common practice, no source).
constexpr double usual_growth = 0.05;

/// What grew in a second of an interval, and how much it counts: 1/u² but for a common factor.
struct FrostRate {
  double per_second = 0.0;
  double weight = 0.0;
};

/// Rates of all defrosts whose interval was seen whole, with one measure of the frost and one of the time for all.
template <class Load, class Time>
std::vector<FrostRate> rates_of(const LogAnalysis& analysis, Load load_of, Time time_of) {
  std::vector<FrostRate> rates;
  for (const Defrost& defrost : analysis.defrosts) {
    const std::optional<double> load = load_of(defrost);
    const std::optional<double> second = time_of(defrost);
    const bool is_whole = !defrost.is_cut && defrost.gap_in_interval_second <= 0.0;
    if (!is_whole || !load || !(second.value_or(0.0) > 0.0)) continue;
    // The rate's own doubt is that of the plateau's edges, Δt/√6, over the interval: the melting share is one for all.
    rates.push_back({*load / *second, *second * *second});
  }
  return rates;
}

/// The defrosts' frost per second of running, where runs and masses are known; else by the clock, else the plateaus.
std::vector<FrostRate> frost_rates(const LogAnalysis& analysis) {
  const auto mass = [](const Defrost& one) {
    return one.frost ? std::optional<double>(one.frost->kilogram) : std::nullopt;
  };
  const auto plateau = [](const Defrost& one) {
    return one.plateau_second > 0.0 ? std::optional<double>(one.plateau_second) : std::nullopt;
  };
  const auto running = [](const Defrost& one) { return one.interval_running_second; };
  const auto clock = [](const Defrost& one) { return one.interval_second; };
  const std::array tried{rates_of(analysis, mass, running), rates_of(analysis, mass, clock),
                         rates_of(analysis, plateau, running), rates_of(analysis, plateau, clock)};
  // The first that has enough; else the one that has most.
  for (const std::vector<FrostRate>& rates : tried)
    if (rates.size() >= fewest_masses) return rates;
  return *std::max_element(tried.begin(), tried.end(),
                           [](const auto& a, const auto& b) { return a.size() < b.size(); });
}

}  // namespace

LogVerdict judge_frost_load(const JudgedLog& log) {
  LogVerdict verdict{"frost-load", "too-few"};
  const std::vector<FrostRate> rates = frost_rates(log.analysis);
  verdict.arguments = {{"count", static_cast<double>(rates.size())}};
  if (rates.size() < fewest_masses) return verdict;
  std::vector<double> design;
  std::vector<double> observed;
  std::vector<double> weights;
  const double middle = 0.5 * (static_cast<double>(rates.size()) - 1.0);
  for (std::size_t i = 0; i < rates.size(); ++i) {
    design.insert(design.end(), {1.0, static_cast<double>(i) - middle});
    observed.push_back(rates[i].per_second);
    weights.push_back(rates[i].weight);
  }
  const Fit line = fit_linear(design, 2, observed, weights);
  const double mean = std::accumulate(observed.begin(), observed.end(), 0.0) / static_cast<double>(observed.size());
  const std::array sources{
      ErrorSource{"scatter-of-defrosts", {}, Shape::student_t, static_cast<double>(line.degrees_of_freedom)}};
  Estimate growth(line.parameters[1] / mean);
  growth.add_term(0, line.standard_uncertainty(1) / mean);
  judge_quantity(log, {Dimension::ratio, growth, sources, -std::numeric_limits<double>::infinity(), usual_growth},
                 verdict);
  verdict.text = verdict.outcome == Outcome::out_of_limits ? "grows" : "steady";
  if (verdict.outcome == Outcome::undecided) verdict.text = "scatters";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"frost-whole-coil"};
  return verdict;
}

}  // namespace ohmwright::cycles
