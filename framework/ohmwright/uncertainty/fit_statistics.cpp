#include <cmath>
#include <limits>
#include <string>

#include <Eigen/QR>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/fit_statistics.hpp>

namespace ohmwright {

double Fit::residual_standard_deviation() const {
  if (degrees_of_freedom == 0) return std::numeric_limits<double>::quiet_NaN();
  return std::sqrt(weighted_sum_of_squares / static_cast<double>(degrees_of_freedom));
}

double Fit::standard_uncertainty(std::size_t parameter) const {
  return std::sqrt(covariance.at(parameter * parameters.size() + parameter));
}

double Fit::correlation(std::size_t first, std::size_t second) const {
  return covariance.at(first * parameters.size() + second) /
         (standard_uncertainty(first) * standard_uncertainty(second));
}

double Fit::variance_of_combination(std::span<const double> coefficients) const {
  if (coefficients.size() != parameters.size())
    throw Error(ErrorCategory::internal, "a combination of fitted parameters needs one coefficient for each");
  double sum = 0.0;
  for (std::size_t i = 0; i < coefficients.size(); ++i) {
    for (std::size_t k = 0; k < coefficients.size(); ++k)
      sum += coefficients[i] * coefficients[k] * covariance[i * coefficients.size() + k];
  }
  return sum;
}

namespace fit {

void require_enough(std::size_t parameters, std::span<const double> observed, std::span<const double> weights,
                    WeightMeaning meaning) {
  if (!weights.empty() && weights.size() != observed.size())
    throw Error(ErrorCategory::internal, "a weighted fit needs one weight for each observation");
  if (parameters == 0) throw Error(ErrorCategory::internal, "a fit needs at least one parameter");
  const std::size_t needed = meaning == WeightMeaning::relative ? parameters + 1 : parameters;
  if (observed.size() < needed) {
    throw InputError("a fit of " + std::to_string(parameters) + " parameters got " + std::to_string(observed.size()) +
                     " points; it needs at least " + std::to_string(needed));
  }
  for (std::size_t i = 0; i < observed.size(); ++i) {
    if (!std::isfinite(observed[i])) throw InputError("point " + std::to_string(i + 1) + " of a fit is not a number");
    if (!weights.empty() && !(weights[i] > 0.0 && std::isfinite(weights[i])))
      throw InputError("the weight of point " + std::to_string(i + 1) + " of a fit must be above 0");
  }
}

Eigen::VectorXd weight_roots(std::size_t observations, std::span<const double> weights) {
  if (weights.empty()) return Eigen::VectorXd::Ones(static_cast<Eigen::Index>(observations));
  return Eigen::Map<const Eigen::VectorXd>(weights.data(), static_cast<Eigen::Index>(weights.size())).cwiseSqrt();
}

ScaledSolution solve_scaled(const Eigen::MatrixXd& weighted_design, const Eigen::VectorXd& weighted_right_side) {
  const Eigen::VectorXd lengths = weighted_design.colwise().norm();
  if (!(lengths.minCoeff() > 0.0) || !lengths.allFinite())
    throw InputError("a parameter of the fit has no influence on the points; leave it out or add points that show it");
  const Eigen::VectorXd scale = lengths.cwiseInverse();
  const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr(weighted_design * scale.asDiagonal());
  if (qr.rank() < weighted_design.cols())
    throw InputError("the points of the fit do not tell its parameters apart; add points further away from each other");
  const Eigen::Index count = weighted_design.cols();
  const Eigen::MatrixXd identity = Eigen::MatrixXd::Identity(count, count);
  const Eigen::MatrixXd inverse_r =
      qr.matrixR().topLeftCorner(count, count).triangularView<Eigen::Upper>().solve(identity);
  const Eigen::MatrixXd root = scale.asDiagonal() * (qr.colsPermutation() * inverse_r);
  return {scale.cwiseProduct(qr.solve(weighted_right_side)), root * root.transpose()};
}

void complete(Fit& fit, const Eigen::MatrixXd& inverse_of_normal_matrix, const Eigen::VectorXd& weighted_residuals,
              WeightMeaning meaning) {
  const auto count = static_cast<std::size_t>(inverse_of_normal_matrix.cols());
  fit.weighted_sum_of_squares = weighted_residuals.squaredNorm();
  fit.degrees_of_freedom = static_cast<std::size_t>(weighted_residuals.size()) - count;
  double scale = 1.0;
  if (meaning == WeightMeaning::relative)
    scale = fit.weighted_sum_of_squares / static_cast<double>(fit.degrees_of_freedom);
  fit.covariance.resize(count * count);
  Eigen::Map<RowMajor>(fit.covariance.data(), inverse_of_normal_matrix.rows(), inverse_of_normal_matrix.cols()) =
      scale * inverse_of_normal_matrix;
}

}  // namespace fit

}  // namespace ohmwright
