#include <cmath>
#include <limits>
#include <string>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/sum_distribution.hpp>

namespace ohmwright {

void Estimate::add_term(SourceIndex source, double standard_uncertainty) {
  for (Term& term : terms_) {
    if (term.source != source) continue;
    term.standard_uncertainty += standard_uncertainty;
    return;
  }
  if (terms_.size() == max_terms) {
    throw Error(ErrorCategory::internal, "an estimate holds at most " + std::to_string(max_terms) +
                                             " error sources; merge some before adding more");
  }
  terms_.push_back({source, standard_uncertainty});
}

void Estimate::add_scaled(const Estimate& other, double factor) {
  const Estimate copy = other;  // `other` may be this very estimate
  shift(factor * copy.value_);
  add_uncertainty(copy, factor);
}

void Estimate::add_uncertainty(const Estimate& other, double sensitivity) {
  const std::size_t count = other.terms_.size();  // merging with itself adds no terms
  for (std::size_t i = 0; i < count; ++i) {
    const Term term = other.terms_[i];
    add_term(term.source, sensitivity * term.standard_uncertainty);
  }
}

double Estimate::variance() const {
  double sum = 0.0;
  for (const Term& term : terms_) sum += term.standard_uncertainty * term.standard_uncertainty;
  return sum;
}

double Estimate::standard_uncertainty() const { return std::sqrt(variance()); }

double covariance(const Estimate& a, const Estimate& b) {
  double sum = 0.0;
  for (const Term& first : a.terms()) {
    for (const Term& second : b.terms()) {
      if (first.source == second.source) sum += first.standard_uncertainty * second.standard_uncertainty;
    }
  }
  return sum;
}

double effective_degrees_of_freedom(const Estimate& estimate, std::span<const ErrorSource> sources) {
  double variance = 0.0;
  double sum = 0.0;
  for (const Term& term : estimate.terms()) {
    if (term.source >= sources.size()) {
      throw Error(ErrorCategory::internal, "error term of source " + std::to_string(term.source) +
                                               ", but there are only " + std::to_string(sources.size()));
    }
    const double square = term.standard_uncertainty * term.standard_uncertainty;
    variance += square;
    sum += square * square / sources[term.source].degrees_of_freedom;
  }
  return sum > 0.0 ? variance * variance / sum : std::numeric_limits<double>::infinity();
}

double probability_between(const Estimate& estimate, std::span<const ErrorSource> sources, double lower, double upper) {
  return SumDistribution(estimate.terms(), sources)
      .probability_between(lower - estimate.value(), upper - estimate.value());
}

}  // namespace ohmwright
