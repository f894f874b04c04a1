#pragma once

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright {

/// An uncertain input of a model, in a unit that the caller names.
struct PropagationInput {
  std::string name;
  double value = 0.0;
  double standard_uncertainty = 0.0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// What one input does to the result.
struct BudgetLine {
  std::string name;
  double sensitivity = 0.0;   ///< ∂y/∂x; 0 where the input has no uncertainty and none was given
  double contribution = 0.0;  ///< signed: sensitivity times standard uncertainty
  double share = 0.0;         ///< of the first-order variance, covariances split evenly; shares add up to 1
};

/// A second-order part of the variance, from one input (first = second) or a pair (first < second).
struct SecondOrderTerm {
  std::size_t first = 0;
  std::size_t second = 0;
  double variance = 0.0;  ///< may be negative
};

/// A result with its uncertainty budget.
struct Propagation {
  double value = 0.0;
  double standard_uncertainty = 0.0;              ///< second-order terms included, if they were asked for
  double first_order_standard_uncertainty = 0.0;  ///< without them
  /// Welch–Satterthwaite of the first-order contributions (GUM G.4.1), not truncated. That formula holds for
  /// independent inputs; where some are correlated this is, cautiously, the smallest of those that contribute.
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
  std::vector<BudgetLine> budget;             ///< in the order of the inputs
  std::vector<SecondOrderTerm> second_order;  ///< empty unless asked for
};

/// What is known beside the inputs; all of it may be left out.
struct PropagationOptions {
  std::span<const double> correlation;    ///< matrix of r(x_i, x_k), row after row; empty: independent
  std::span<const double> sensitivities;  ///< ∂y/∂x_i; empty: taken numerically (eighth-order central differences)
  bool second_order = false;              ///< for independent inputs only
};

/// One result from uncertain inputs.
using Model = FunctionRef<double(std::span<const double>)>;
/// Several results (second argument, to be filled) from the same inputs.
using JointModel = FunctionRef<void(std::span<const double>, std::span<double>)>;

/// First-order propagation (GUM 5.1.2, 5.2.2), with the next terms of GUM 5.1.2 (note) and H.1.7 where asked for:
/// Σ_i Σ_k [½·f_ik² + f_i·f_ikk]·u_i²·u_k², which assumes independent and about normal inputs.
/// Throws `Error` (internal) for a correlation matrix that is none, negative uncertainties or sizes that do not match;
/// `InputError` where the model gives no finite number at or near the inputs.
OHMWRIGHT_CORE_API Propagation propagate(Model model, std::span<const PropagationInput> inputs,
                                         const PropagationOptions& options = {});

/// Several results and how they hang together.
struct OHMWRIGHT_CORE_API JointPropagation {
  std::vector<double> values;
  std::vector<double> sensitivities;  ///< ∂y_m/∂x_i, one row of inputs a result
  std::vector<double> covariance;     ///< of the results, row after row

  double standard_uncertainty(std::size_t result) const;
  double correlation(std::size_t first, std::size_t second) const;
};

/// First-order propagation to several results of the same inputs (GUM H.2.3, equation H.9).
/// `correlation` as in `PropagationOptions`; errors as `propagate`.
OHMWRIGHT_CORE_API JointPropagation propagate_jointly(JointModel model, std::size_t result_count,
                                                      std::span<const PropagationInput> inputs,
                                                      std::span<const double> correlation = {});

/// One independent part of an uncertainty.
struct UncertaintyPart {
  double standard_uncertainty = 0.0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// Welch–Satterthwaite effective degrees of freedom (GUM G.4.1), not truncated; infinity where every part is known.
OHMWRIGHT_CORE_API double welch_satterthwaite(std::span<const UncertaintyPart> parts);

}  // namespace ohmwright
