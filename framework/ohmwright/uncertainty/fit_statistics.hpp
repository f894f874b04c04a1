#pragma once

#include <cstddef>
#include <span>

#include <Eigen/Core>

#include <ohmwright/uncertainty/least_squares.hpp>

namespace ohmwright::fit {

// Shared by the two fits; included by their sources only, because of Eigen.

using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Throws what `fit_linear` promises for data that cannot carry the parameters.
void require_enough(std::size_t parameters, std::span<const double> observed, std::span<const double> weights,
                    WeightMeaning meaning);

/// √weight of each observation, 1 without weights.
Eigen::VectorXd weight_roots(std::size_t observations, std::span<const double> weights);

/// A weighted design with its columns scaled to length 1, its rank-revealing QR, and what follows from it.
struct ScaledSolution {
  Eigen::VectorXd step;                      ///< solves design·step ≈ right side
  Eigen::MatrixXd inverse_of_normal_matrix;  ///< (AᵀA)⁻¹
};

/// Throws `InputError` if the columns do not determine the parameters.
ScaledSolution solve_scaled(const Eigen::MatrixXd& weighted_design, const Eigen::VectorXd& weighted_right_side);

/// Fills covariance, sum of squares and degrees of freedom.
void complete(Fit& fit, const Eigen::MatrixXd& inverse_of_normal_matrix, const Eigen::VectorXd& weighted_residuals,
              WeightMeaning meaning);

}  // namespace ohmwright::fit
