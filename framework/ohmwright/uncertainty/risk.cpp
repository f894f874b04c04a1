#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/risk.hpp>

namespace ohmwright {

namespace {

void require_positive(double value, const char* what) {
  if (value > 0.0) return;
  throw Error(ErrorCategory::internal, std::string(what) + " is " + std::to_string(value) + "; it must be above 0");
}

/// P(limits hold a normal of this centre and spread): by the small tails, which keep their digits.
double normal_between(double centre, double spread, Interval limits) {
  const double lower = (limits.lower - centre) / spread;
  const double upper = (limits.upper - centre) / spread;
  if (lower > upper) return 0.0;
  if (lower > 0.0) return normal_probability_below(-lower) - normal_probability_below(-upper);
  return normal_probability_below(upper) - normal_probability_below(lower);
}

constexpr double reach = 10.0;  // Φ(−10) = 8e-24

}  // namespace

double conformance_probability(double reading, double standard_uncertainty, Interval tolerance) {
  require_positive(standard_uncertainty, "the standard uncertainty");
  return normal_between(reading, standard_uncertainty, tolerance);
}

double conformance_probability_of_capability(double capability_index, double place_in_tolerance) {
  require_positive(capability_index, "the measurement capability index");
  return normal_between(place_in_tolerance, 0.25 / capability_index, {0.0, 1.0});
}

Population posterior_of_reading(Population prior, double reading, double standard_uncertainty) {
  require_positive(standard_uncertainty, "the standard uncertainty");
  require_positive(prior.standard_deviation, "the standard deviation of the population");
  const double prior_weight = 1.0 / (prior.standard_deviation * prior.standard_deviation);
  const double reading_weight = 1.0 / (standard_uncertainty * standard_uncertainty);
  const double weight = prior_weight + reading_weight;
  return {(prior_weight * prior.mean + reading_weight * reading) / weight, 1.0 / std::sqrt(weight)};
}

double guard_band(double standard_uncertainty, double accepted_risk) {
  if (!(standard_uncertainty >= 0.0)) {
    throw Error(ErrorCategory::internal,
                "the standard uncertainty is " + std::to_string(standard_uncertainty) + "; it must be 0 or more");
  }
  return -normal_quantile(accepted_risk) * standard_uncertainty;
}

double false_acceptance_at_limit(double multiple_of_expanded_uncertainty) {
  return normal_probability_below(-2.0 * multiple_of_expanded_uncertainty);
}

GlobalRisk global_risk(Population population, double standard_uncertainty, Interval tolerance, Interval acceptance) {
  require_positive(standard_uncertainty, "the standard uncertainty");
  require_positive(population.standard_deviation, "the standard deviation of the population");
  const double mean = population.mean;
  const double spread = population.standard_deviation;
  const auto wrongly_accepted = [&](double z) {
    return std::exp(-0.5 * z * z) * normal_between(mean + spread * z, standard_uncertainty, acceptance);
  };
  const auto wrongly_rejected = [&](double z) {
    return std::exp(-0.5 * z * z) * (1.0 - normal_between(mean + spread * z, standard_uncertainty, acceptance));
  };
  // Cut where the integrand bends.
  std::array<double, 6> cuts{-reach,
                             (tolerance.lower - mean) / spread,
                             (tolerance.upper - mean) / spread,
                             (acceptance.lower - mean) / spread,
                             (acceptance.upper - mean) / spread,
                             reach};
  for (double& cut : cuts) cut = std::clamp(cut, -reach, reach);
  std::sort(cuts.begin(), cuts.end());

  GlobalRisk risk;
  risk.conforming = normal_between(mean, spread, tolerance);
  using Quadrature = boost::math::quadrature::gauss_kronrod<double, 31>;
  constexpr double density_scale = 0.398942280401432677939946059934;  // 1/√(2π)
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    if (!(cuts[i - 1] < cuts[i])) continue;
    const double middle = mean + spread * 0.5 * (cuts[i - 1] + cuts[i]);
    const bool conforms = middle >= tolerance.lower && middle <= tolerance.upper;
    if (conforms) {
      risk.producers_risk += density_scale * Quadrature::integrate(wrongly_rejected, cuts[i - 1], cuts[i], 12, 1e-12);
    } else {
      risk.consumers_risk += density_scale * Quadrature::integrate(wrongly_accepted, cuts[i - 1], cuts[i], 12, 1e-12);
    }
  }
  return risk;
}

}  // namespace ohmwright
