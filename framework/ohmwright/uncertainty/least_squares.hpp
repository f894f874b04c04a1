#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright {

/// Parameters of a fit and what is known of them. Kernel type: units are those of the caller's data.
struct OHMWRIGHT_CORE_API Fit {
  std::vector<double> parameters;
  std::vector<double> covariance;  ///< of the parameters, row after row
  std::vector<double> residuals;   ///< observed − fitted, as given, not weighted
  double weighted_sum_of_squares = 0.0;
  std::size_t degrees_of_freedom = 0;
  int iterations = 0;  ///< 0 for a linear fit

  /// √(sum of squares / degrees of freedom) [unit of a weighted residual]; NaN where no degree of freedom is left.
  double residual_standard_deviation() const;
  /// Standard uncertainty of one parameter.
  double standard_uncertainty(std::size_t parameter) const;
  /// Correlation coefficient of two parameters [dimensionless].
  double correlation(std::size_t first, std::size_t second) const;
  /// Variance of Σ coefficient_i · parameter_i, covariances included: of a prediction on the fitted curve (GUM H.3.4).
  double variance_of_combination(std::span<const double> coefficients) const;
};

/// What the weights of a fit say.
enum class WeightMeaning {
  relative,          ///< ratios only: the scatter about the fit tells the scale
  inverse_variance,  ///< 1/u² of each observation, known beforehand: the scatter does not enter the covariance
};

/// Linear least squares: observed_i ≈ Σ_k design[i][k]·p_k, by a rank-revealing QR with scaled columns.
///
/// `design` holds one row of `parameter_count` figures for each observation; `weights` is empty or one figure > 0 each.
/// Throws `InputError` if there are fewer observations than parameters (or as many, with relative weights), a figure is
/// not finite, or the columns do not determine the parameters; `Error` (internal) if the sizes do not match.
OHMWRIGHT_CORE_API Fit fit_linear(std::span<const double> design, std::size_t parameter_count,
                                  std::span<const double> observed, std::span<const double> weights = {},
                                  WeightMeaning meaning = WeightMeaning::relative);

/// Fills `fitted` (one figure an observation) from the parameters.
using CurveModel = FunctionRef<void(std::span<const double> parameters, std::span<double> fitted)>;
/// Fills `derivatives` ∂fitted_i/∂p_k, one row of parameters an observation.
using CurveDerivatives = FunctionRef<void(std::span<const double> parameters, std::span<double> derivatives)>;

/// Non-linear least squares by Levenberg–Marquardt (MINPACK's, as Eigen carries it), finished by Gauss–Newton steps.
///
/// Without `derivatives` they are taken numerically (five-point central differences; a start of 0 counts as 1 there).
/// Throws `InputError` as `fit_linear`, and where no minimum is found: nearer starting values are the way on.
OHMWRIGHT_CORE_API Fit fit_nonlinear(CurveModel model, std::span<const double> start, std::span<const double> observed,
                                     std::optional<CurveDerivatives> derivatives = std::nullopt,
                                     std::span<const double> weights = {},
                                     WeightMeaning meaning = WeightMeaning::relative);

}  // namespace ohmwright
