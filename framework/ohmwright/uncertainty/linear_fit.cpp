#include <string>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/fit_statistics.hpp>
#include <ohmwright/uncertainty/least_squares.hpp>

namespace ohmwright {

Fit fit_linear(std::span<const double> design, std::size_t parameter_count, std::span<const double> observed,
               std::span<const double> weights, WeightMeaning meaning) {
  fit::require_enough(parameter_count, observed, weights, meaning);
  if (design.size() != parameter_count * observed.size())
    throw Error(ErrorCategory::internal, "a linear fit needs one row of the design for each observation");
  const auto rows = static_cast<Eigen::Index>(observed.size());
  const auto columns = static_cast<Eigen::Index>(parameter_count);
  const Eigen::Map<const fit::RowMajor> matrix(design.data(), rows, columns);
  if (!matrix.allFinite()) throw InputError("the design of a linear fit holds something that is not a number");
  const Eigen::Map<const Eigen::VectorXd> right_side(observed.data(), rows);
  const Eigen::VectorXd roots = fit::weight_roots(observed.size(), weights);
  const Eigen::MatrixXd weighted = roots.asDiagonal() * matrix;

  fit::ScaledSolution solution = fit::solve_scaled(weighted, roots.cwiseProduct(right_side));
  // One step of iterative refinement: the second solve works on the residuals, whose digits are all new.
  Eigen::VectorXd residuals = right_side - matrix * solution.step;
  solution.step += fit::solve_scaled(weighted, roots.cwiseProduct(residuals)).step;
  residuals = right_side - matrix * solution.step;

  Fit result;
  result.parameters.assign(solution.step.begin(), solution.step.end());
  result.residuals.assign(residuals.begin(), residuals.end());
  fit::complete(result, solution.inverse_of_normal_matrix, roots.cwiseProduct(residuals), meaning);
  return result;
}

}  // namespace ohmwright
