#include <cmath>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/numeric_derivatives.hpp>
#include <ohmwright/uncertainty/propagation.hpp>

namespace ohmwright {

namespace {

/// r(x_i, x_k), the identity where no matrix was given.
class Correlation {
 public:
  Correlation(std::span<const double> matrix, std::size_t size) : matrix_(matrix), size_(size) {
    if (matrix.empty()) return;
    if (matrix.size() != size * size)
      throw Error(ErrorCategory::internal, "a correlation matrix needs one row and one column for each input");
    for (std::size_t i = 0; i < size; ++i) {
      for (std::size_t k = 0; k < size; ++k) require_coefficient(i, k);
    }
  }

  double operator()(std::size_t i, std::size_t k) const {
    if (i == k) return 1.0;
    return matrix_.empty() ? 0.0 : matrix_[i * size_ + k];
  }

  bool couples_any() const {
    for (std::size_t i = 0; i < size_; ++i) {
      for (std::size_t k = 0; k < i; ++k) {
        if ((*this)(i, k) != 0.0) return true;
      }
    }
    return false;
  }

 private:
  void require_coefficient(std::size_t i, std::size_t k) const {
    const double r = matrix_[i * size_ + k];
    const bool sound = i == k ? r == 1.0 : r >= -1.0 && r <= 1.0 && r == matrix_[k * size_ + i];
    if (!sound) {
      throw Error(ErrorCategory::internal,
                  "a correlation matrix is symmetric, has 1 on its diagonal and nothing beyond −1 and 1");
    }
  }

  std::span<const double> matrix_;
  std::size_t size_;
};

void require_sound(std::span<const PropagationInput> inputs) {
  for (const PropagationInput& input : inputs) {
    if (!(input.standard_uncertainty >= 0.0 && std::isfinite(input.standard_uncertainty)))
      throw Error(ErrorCategory::internal, "the uncertainty of " + input.name + " must be 0 or more");
    if (!(input.degrees_of_freedom > 0.0))
      throw Error(ErrorCategory::internal, "the degrees of freedom of " + input.name + " must be above 0");
  }
}

/// A variance that rounding made slightly negative is zero; more than that is a matrix that cannot be.
double checked_variance(double variance, double largest_square) {
  if (variance < -1e-9 * largest_square)
    throw Error(ErrorCategory::internal, "the correlation matrix contradicts itself: it makes a variance negative");
  return std::fmax(variance, 0.0);
}

double first_order_variance(std::vector<BudgetLine>& budget, const Correlation& correlation) {
  double variance = 0.0;
  double largest = 0.0;
  for (std::size_t i = 0; i < budget.size(); ++i) {
    double through = 0.0;
    for (std::size_t k = 0; k < budget.size(); ++k) through += correlation(i, k) * budget[k].contribution;
    budget[i].share = budget[i].contribution * through;
    variance += budget[i].share;
    largest = std::fmax(largest, budget[i].contribution * budget[i].contribution);
  }
  variance = checked_variance(variance, largest);
  for (BudgetLine& line : budget) line.share = variance > 0.0 ? line.share / variance : 0.0;
  return variance;
}

double degrees_of_freedom_of(std::span<const PropagationInput> inputs, const std::vector<BudgetLine>& budget,
                             const Correlation& correlation) {
  if (!correlation.couples_any()) {
    std::vector<UncertaintyPart> parts;
    parts.reserve(inputs.size());
    for (std::size_t i = 0; i < inputs.size(); ++i)
      parts.push_back({budget[i].contribution, inputs[i].degrees_of_freedom});
    return welch_satterthwaite(parts);
  }
  double smallest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    if (budget[i].contribution != 0.0) smallest = std::fmin(smallest, inputs[i].degrees_of_freedom);
  }
  return smallest;
}

std::vector<SecondOrderTerm> second_order_terms(const NumericDerivatives& derivatives,
                                                std::span<const PropagationInput> inputs,
                                                const std::vector<BudgetLine>& budget) {
  std::vector<SecondOrderTerm> terms;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    for (std::size_t k = i; k < inputs.size(); ++k) {
      if (inputs[i].standard_uncertainty == 0.0 || inputs[k].standard_uncertainty == 0.0) continue;
      const double second = derivatives.second_scaled(i, k);
      const double slope = budget[i].contribution * derivatives.third_scaled(i, k);
      const double variance = i == k
                                  ? 0.5 * second * second + slope
                                  : second * second + slope + budget[k].contribution * derivatives.third_scaled(k, i);
      terms.push_back({i, k, variance});
    }
  }
  return terms;
}

}  // namespace

double welch_satterthwaite(std::span<const UncertaintyPart> parts) {
  double variance = 0.0;
  double sum = 0.0;
  for (const UncertaintyPart& part : parts) {
    const double square = part.standard_uncertainty * part.standard_uncertainty;
    variance += square;
    sum += square * square / part.degrees_of_freedom;
  }
  return sum > 0.0 ? variance * variance / sum : std::numeric_limits<double>::infinity();
}

Propagation propagate(Model model, std::span<const PropagationInput> inputs, const PropagationOptions& options) {
  require_sound(inputs);
  const Correlation correlation(options.correlation, inputs.size());
  if (!options.sensitivities.empty() && options.sensitivities.size() != inputs.size())
    throw Error(ErrorCategory::internal, "given sensitivities need one figure for each input");
  if (options.second_order && correlation.couples_any())
    throw Error(ErrorCategory::internal, "second-order terms are known for independent inputs only");

  const NumericDerivatives derivatives(model, inputs);
  Propagation result;
  result.value = derivatives.value();
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const double sensitivity = options.sensitivities.empty() ? derivatives.first(i) : options.sensitivities[i];
    result.budget.push_back({inputs[i].name, sensitivity, sensitivity * inputs[i].standard_uncertainty, 0.0});
  }
  double variance = first_order_variance(result.budget, correlation);
  result.first_order_standard_uncertainty = std::sqrt(variance);
  result.degrees_of_freedom = degrees_of_freedom_of(inputs, result.budget, correlation);
  if (options.second_order) {
    result.second_order = second_order_terms(derivatives, inputs, result.budget);
    for (const SecondOrderTerm& term : result.second_order) variance += term.variance;
  }
  result.standard_uncertainty = std::sqrt(std::fmax(variance, 0.0));
  return result;
}

double JointPropagation::standard_uncertainty(std::size_t result) const {
  return std::sqrt(covariance.at(result * values.size() + result));
}

double JointPropagation::correlation(std::size_t first, std::size_t second) const {
  return covariance.at(first * values.size() + second) / (standard_uncertainty(first) * standard_uncertainty(second));
}

JointPropagation propagate_jointly(JointModel model, std::size_t result_count, std::span<const PropagationInput> inputs,
                                   std::span<const double> correlation) {
  require_sound(inputs);
  const Correlation r(correlation, inputs.size());
  const std::size_t count = inputs.size();
  JointPropagation result;
  result.values.resize(result_count);
  result.sensitivities.resize(result_count * count);
  result.covariance.resize(result_count * result_count);
  std::vector<double> filled(result_count);
  for (std::size_t m = 0; m < result_count; ++m) {
    const auto one_result = [&](std::span<const double> point) {
      model(point, filled);
      return filled[m];
    };
    const NumericDerivatives derivatives(one_result, inputs);
    result.values[m] = derivatives.value();
    for (std::size_t i = 0; i < count; ++i) result.sensitivities[m * count + i] = derivatives.first(i);
  }
  const auto contribution = [&](std::size_t m, std::size_t i) {
    return result.sensitivities[m * count + i] * inputs[i].standard_uncertainty;
  };
  for (std::size_t m = 0; m < result_count; ++m) {
    for (std::size_t n = 0; n < result_count; ++n) {
      double sum = 0.0;
      double largest = 0.0;
      for (std::size_t i = 0; i < count; ++i) {
        largest = std::fmax(largest, contribution(m, i) * contribution(m, i));
        for (std::size_t k = 0; k < count; ++k) sum += r(i, k) * contribution(m, i) * contribution(n, k);
      }
      result.covariance[m * result_count + n] = m == n ? checked_variance(sum, largest) : sum;
    }
  }
  return result;
}

}  // namespace ohmwright
