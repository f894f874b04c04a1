#include <algorithm>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

Conformance conformance_of(const Estimate& estimate, std::span<const ErrorSource> sources, double lower, double upper) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double within = probability_between(estimate, sources, lower, upper);
  if (!(within < 0.5)) return {within, within};
  return {within, std::min(probability_between(estimate, sources, -infinity, upper),
                           probability_between(estimate, sources, lower, infinity))};
}

Outcome decide(Conformance conformance, double confidence) {
  if (conformance.within >= confidence) return Outcome::within_limits;
  if (conformance.not_beyond <= 1.0 - confidence) return Outcome::out_of_limits;
  return Outcome::undecided;
}

Outcome decide_observed(double probability_observed_if_within, double confidence) {
  return probability_observed_if_within <= 1.0 - confidence ? Outcome::out_of_limits : Outcome::undecided;
}

std::vector<BudgetShare> budget_of(const Estimate& estimate) {
  std::vector<BudgetShare> budget;
  const double variance = estimate.variance();
  if (variance <= 0.0) return budget;
  for (const Term& term : estimate.terms())
    budget.push_back({term.source, term.standard_uncertainty * term.standard_uncertainty / variance});
  std::stable_sort(budget.begin(), budget.end(),
                   [](const BudgetShare& a, const BudgetShare& b) { return a.share > b.share; });
  return budget;
}

}  // namespace ohmwright
