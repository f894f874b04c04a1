#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/monte_carlo.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright {

MonteCarloResult::MonteCarloResult(std::vector<double> values, MonteCarloPlan plan)
    : values_(std::move(values)), plan_(plan) {
  if (values_.size() < 2) throw Error(ErrorCategory::internal, "a Monte Carlo run needs at least two trials");
  for (const double value : values_) {
    if (!std::isfinite(value)) {
      throw Error(ErrorCategory::internal,
                  "a Monte Carlo trial gave no finite number; narrow the inputs to where the model holds");
    }
  }
  std::sort(values_.begin(), values_.end());
  const auto count = static_cast<double>(values_.size());
  double offsets = 0.0;
  for (const double value : values_) offsets += value - values_.front();  // small numbers keep their digits
  mean_ = values_.front() + offsets / count;
  double squares = 0.0;
  for (const double value : values_) squares += (value - mean_) * (value - mean_);
  standard_uncertainty_ = std::sqrt(squares / (count - 1.0));
}

double MonteCarloResult::probability_between(double lower, double upper) const {
  if (!(lower <= upper)) return 0.0;
  const auto first = std::lower_bound(values_.begin(), values_.end(), lower);
  const auto last = std::upper_bound(values_.begin(), values_.end(), upper);
  return static_cast<double>(last - first) / static_cast<double>(values_.size());
}

double MonteCarloResult::standard_error_of(double probability) const {
  return std::sqrt(probability * (1.0 - probability) / static_cast<double>(values_.size()));
}

/// q of JCGM 101, 7.7: the number of trials that an interval of this coverage spans.
std::size_t MonteCarloResult::covered_trials(double coverage) const {
  if (!(coverage > 0.0 && coverage < 1.0))
    throw Error(ErrorCategory::internal, "a coverage probability must lie between 0 and 1");
  const auto covered = static_cast<std::size_t>(std::llround(coverage * static_cast<double>(values_.size())));
  return std::clamp<std::size_t>(covered, 1, values_.size() - 1);
}

CoverageInterval MonteCarloResult::symmetric_interval(double coverage) const {
  const std::size_t covered = covered_trials(coverage);
  const std::size_t first = (values_.size() - covered) / 2;
  return {values_[first], values_[std::min(first + covered, values_.size() - 1)]};
}

CoverageInterval MonteCarloResult::shortest_interval(double coverage) const {
  const std::size_t covered = covered_trials(coverage);
  std::size_t best = 0;
  for (std::size_t first = 0; first + covered < values_.size(); ++first) {
    if (values_[first + covered] - values_[first] < values_[best + covered] - values_[best]) best = first;
  }
  return {values_[best], values_[best + covered]};
}

MonteCarloResult propagate_by_monte_carlo(FunctionRef<double(std::span<const double>)> model,
                                          std::span<const InputDistribution> inputs, MonteCarloPlan plan) {
  for (const InputDistribution& input : inputs) {
    if (!(input.standard_uncertainty >= 0.0))
      throw Error(ErrorCategory::internal, "the uncertainty of " + input.name + " must be 0 or more");
  }
  ReproducibleStream stream(plan.seed);
  std::vector<double> drawn(inputs.size());
  std::vector<double> values(plan.trials);
  for (double& value : values) {
    for (std::size_t i = 0; i < inputs.size(); ++i) {
      const double error = stream.error_of(inputs[i].shape, inputs[i].degrees_of_freedom);
      drawn[i] = inputs[i].value + inputs[i].standard_uncertainty * error;
    }
    value = model(drawn);
  }
  return {std::move(values), plan};
}

}  // namespace ohmwright
