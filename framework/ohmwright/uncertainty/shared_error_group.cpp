#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <string>

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>
#include <ohmwright/uncertainty/shared_error_group.hpp>

namespace ohmwright {

namespace {

constexpr std::uint64_t fixed_seed = 20120106;
constexpr std::size_t trial_pairs = 20000;

/// Absolute error asked of the integral over the innermost shared error and over those outside it. Inside it is finer,
/// or the outer integral would chase its noise.
constexpr double innermost_tolerance = 1e-9;
constexpr double outer_tolerance = 1e-7;
constexpr int most_halvings = 12;
constexpr double same_proportion = 1e-12;

double coefficient_of(const Estimate& estimate, SourceIndex source) {
  for (const Term& term : estimate.terms()) {
    if (term.source == source) return term.standard_uncertainty;
  }
  return 0.0;
}

/// Gauss–Kronrod with halving until the absolute error is small: Boost's own halving asks for a relative one, also of
/// the pieces that contribute next to nothing.
template <typename Integrand>
double integrate(const Integrand& integrand, double from, double to, double tolerance, int halvings) {
  double error = 0.0;
  const double whole =
      boost::math::quadrature::gauss_kronrod<double, 15>::integrate(integrand, from, to, 0, 0.0, &error);
  if (!(error > tolerance) || halvings == 0) return whole;
  const double middle = 0.5 * (from + to);
  return integrate(integrand, from, middle, 0.5 * tolerance, halvings - 1) +
         integrate(integrand, middle, to, 0.5 * tolerance, halvings - 1);
}

bool adds_up(Shape shape) { return shape != Shape::arcsine && shape != Shape::student_t; }

}  // namespace

SharedErrorGroup::SharedErrorGroup(std::span<const LimitedEstimate> estimates, std::span<const ErrorSource> sources,
                                   std::size_t first)
    : estimates_(estimates), sources_(sources) {
  gather(first);
  for (std::size_t i = 0; i < estimates.size(); ++i) {
    if (members_[i]) add_member(estimates[i]);
  }
  for (const SourceIndex source : shared_) add_factor(source);
  // The strongest innermost: its integral smooths what the others have to integrate.
  std::sort(factors_.begin(), factors_.end(), [](const Factor& a, const Factor& b) { return a.weight < b.weight; });
}

/// Members and shared sources, from neighbour to neighbour until nobody joins.
void SharedErrorGroup::gather(std::size_t first) {
  members_.set(first);
  EstimateSet before;
  while (before != members_) {
    before = members_;
    for (std::size_t i = 0; i < estimates_.size(); ++i) {
      if (before[i]) take_neighbours(estimates_[i].estimate);
    }
  }
}

void SharedErrorGroup::take_neighbours(const Estimate& estimate) {
  for (const Term& term : estimate.terms()) {
    if (term.source >= sources_.size()) {
      throw Error(ErrorCategory::internal, "error term of source " + std::to_string(term.source) +
                                               ", but there are only " + std::to_string(sources_.size()));
    }
    if (term.standard_uncertainty == 0.0) continue;
    EstimateSet holders;
    for (std::size_t i = 0; i < estimates_.size(); ++i)
      holders[i] = coefficient_of(estimates_[i].estimate, term.source) != 0.0;
    if (holders.count() < 2) continue;
    members_ |= holders;
    if (std::find(shared_.begin(), shared_.end(), term.source) == shared_.end()) shared_.push_back(term.source);
  }
}

void SharedErrorGroup::add_member(const LimitedEstimate& limited) {
  limits_.push_back({limited.lower - limited.estimate.value(), limited.upper - limited.estimate.value()});
  Rest& rest = rest_.emplace_back();
  rest.estimate = &limited.estimate;
  for (const Term& term : limited.estimate.terms()) {
    if (std::find(shared_.begin(), shared_.end(), term.source) != shared_.end()) continue;
    const ErrorSource& source = sources_[term.source];
    rest.distribution.add(source.shape, source.degrees_of_freedom, term.standard_uncertainty);
  }
}

void SharedErrorGroup::add_factor(SourceIndex source) {
  Factor factor;
  factor.first = source;
  factor.source_count = 1;
  for (const Rest& rest : rest_) {
    const double coefficient = coefficient_of(*rest.estimate, source);
    const double variance = rest.estimate->variance();
    factor.coefficients.push_back(coefficient);
    if (variance > 0.0) factor.weight += coefficient * coefficient / variance;
  }
  for (Factor& other : factors_) {
    if (adds_up(sources_[other.first].shape) && merge(other, factor, sources_[source])) return;
  }
  if (factors_.size() == max_integrated_sources) {
    too_many_factors_ = true;
    return;
  }
  factor.sum.add(sources_[source].shape, sources_[source].degrees_of_freedom, 1.0);
  factors_.push_back(factor);
}

/// Adds `factor`, of the one `source`, if it moves the members in the same proportions.
bool SharedErrorGroup::merge(Factor& into, const Factor& factor, const ErrorSource& source) {
  if (!adds_up(source.shape)) return false;
  const auto larger = [](double a, double b) { return std::fabs(a) < std::fabs(b); };
  const auto strongest = std::max_element(into.coefficients.begin(), into.coefficients.end(), larger);
  const auto place = static_cast<std::size_t>(strongest - into.coefficients.begin());
  const double proportion = factor.coefficients[place] / *strongest;
  for (std::size_t i = 0; i < into.coefficients.size(); ++i) {
    const double difference = std::fabs(factor.coefficients[i] - proportion * into.coefficients[i]);
    if (!(difference <= same_proportion * std::fabs(factor.coefficients[place]))) return false;
  }
  into.sum.add(source.shape, source.degrees_of_freedom, proportion);
  into.weight += factor.weight;
  ++into.source_count;
  return true;
}

SourceIntegral SharedErrorGroup::integral_of(const Factor& factor) const {
  return factor.source_count == 1 ? SourceIntegral(sources_[factor.first]) : SourceIntegral(factor.sum);
}

bool SharedErrorGroup::is_sound() const {
  for (std::size_t i = 0; i < rest_.size(); ++i) {
    const double variance = rest_[i].estimate->variance();
    if (std::isnan(limits_[i].lower) || std::isnan(limits_[i].upper) || !std::isfinite(variance)) return false;
  }
  return true;
}

JointProbability SharedErrorGroup::probability() {
  if (!is_sound()) return {std::numeric_limits<double>::quiet_NaN(), 0.0, JointMethod::product, 0, 0};
  if (shared_.empty()) return {given_shared(), 0.0, JointMethod::product, 0, 0};
  if (too_many_factors_) return drawn();
  return {std::clamp(integrated(0), 0.0, 1.0), 0.0, JointMethod::quadrature, 0, 0};
}

double SharedErrorGroup::given_shared() const {
  double product = 1.0;
  for (std::size_t i = 0; i < rest_.size(); ++i) {
    product *= rest_[i].distribution.probability_between(limits_[i].lower, limits_[i].upper);
    if (product == 0.0) break;
  }
  return product;
}

void SharedErrorGroup::move_limits(const Factor& factor, double error) {
  for (std::size_t i = 0; i < limits_.size(); ++i) {
    limits_[i].lower -= factor.coefficients[i] * error;
    limits_[i].upper -= factor.coefficients[i] * error;
  }
}

/// Where the integrand bends: where the weight does and, for the innermost, where the error carries a member over a
/// limit with one of the corners of its rest. Outer integrands have been smoothed by the inner ones.
SharedErrorGroup::Cuts SharedErrorGroup::cuts_of(std::size_t next, const SourceIntegral& integral) const {
  Cuts cuts;
  for (const double cut : integral.cuts()) cuts.push_back(cut);
  const bool innermost = next + 1 == factors_.size();
  for (std::size_t i = 0; innermost && i < rest_.size(); ++i) {
    const double coefficient = factors_[next].coefficients[i];
    if (coefficient == 0.0) continue;
    for (const double bend : rest_[i].distribution.bends()) {
      cuts.push_back(integral.parameter((limits_[i].lower + bend) / coefficient));
      cuts.push_back(integral.parameter((limits_[i].upper + bend) / coefficient));
    }
  }
  std::sort(cuts.begin(), cuts.end());
  return cuts;
}

/// Average over the shared errors from `next` on, given those before.
double SharedErrorGroup::integrated(std::size_t next) {
  if (next == factors_.size()) return given_shared();
  const Factor& factor = factors_[next];
  const SourceIntegral integral = integral_of(factor);
  const auto limits_before = limits_;
  const auto integrand = [&](double theta) {
    limits_ = limits_before;
    move_limits(factor, integral.error(theta));
    return integral.weight(theta) * integrated(next + 1);
  };
  const Cuts cuts = cuts_of(next, integral);
  const double tolerance = next + 1 == factors_.size() ? innermost_tolerance : outer_tolerance;
  double sum = 0.0;
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    if (cuts[i - 1] < cuts[i]) sum += integrate(integrand, cuts[i - 1], cuts[i], tolerance, most_halvings);
  }
  limits_ = limits_before;
  return sum;
}

/// The same average over antithetic draws.
JointProbability SharedErrorGroup::drawn() {
  ReproducibleStream stream(fixed_seed);
  const auto limits_before = limits_;
  boost::container::static_vector<double, max_joint_estimates> errors(rest_.size());
  double sum = 0.0;
  double squares = 0.0;
  for (std::size_t trial = 0; trial < trial_pairs; ++trial) {
    std::fill(errors.begin(), errors.end(), 0.0);
    for (const SourceIndex source : shared_) {
      const double error = stream.error_of(sources_[source].shape, sources_[source].degrees_of_freedom);
      for (std::size_t i = 0; i < rest_.size(); ++i) errors[i] += coefficient_of(*rest_[i].estimate, source) * error;
    }
    double pair = 0.0;
    for (const double sign : {1.0, -1.0}) {
      for (std::size_t i = 0; i < rest_.size(); ++i)
        limits_[i] = {limits_before[i].lower - sign * errors[i], limits_before[i].upper - sign * errors[i]};
      pair += 0.5 * given_shared();
    }
    sum += pair;
    squares += pair * pair;
  }
  limits_ = limits_before;
  const auto count = static_cast<double>(trial_pairs);
  const double mean = sum / count;
  const double variance = std::fmax(squares / count - mean * mean, 0.0);
  return {mean, std::sqrt(variance / count), JointMethod::monte_carlo, fixed_seed, 2 * trial_pairs};
}

}  // namespace ohmwright
