#include <cmath>
#include <limits>
#include <string>
#include <unsupported/Eigen/NonLinearOptimization>

#include <Eigen/Core>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/fit_statistics.hpp>
#include <ohmwright/uncertainty/least_squares.hpp>

namespace ohmwright {

namespace {

constexpr int most_evaluations = 20000;
constexpr int most_finishing_steps = 20;

/// The fit as Eigen's Levenberg–Marquardt wants to see it: weighted residuals fitted − observed, and their derivatives.
struct WeightedResiduals {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

  CurveModel model;
  std::optional<CurveDerivatives> derivatives;
  Eigen::VectorXd observed;
  Eigen::VectorXd roots;
  Eigen::VectorXd start;

  int inputs() const { return static_cast<int>(start.size()); }
  int values() const { return static_cast<int>(observed.size()); }

  Eigen::VectorXd fitted(const Eigen::VectorXd& parameters) const {
    Eigen::VectorXd result(observed.size());
    model(std::span(parameters.data(), static_cast<std::size_t>(parameters.size())),
          std::span(result.data(), static_cast<std::size_t>(result.size())));
    return result;
  }

  int operator()(const Eigen::VectorXd& parameters, Eigen::VectorXd& residuals) const {
    residuals = roots.cwiseProduct(fitted(parameters) - observed);
    // A trial step outside the model's range must look bad, not end the search.
    if (!residuals.allFinite()) residuals.setConstant(1e100);
    return 0;
  }

  int df(const Eigen::VectorXd& parameters, Eigen::MatrixXd& jacobian) const {
    if (derivatives) {
      fit::RowMajor rows(observed.size(), start.size());
      (*derivatives)(std::span(parameters.data(), static_cast<std::size_t>(parameters.size())),
                     std::span(rows.data(), static_cast<std::size_t>(rows.size())));
      jacobian = roots.asDiagonal() * rows;
    } else {
      for (Eigen::Index k = 0; k < start.size(); ++k) jacobian.col(k) = numeric_derivative(parameters, k);
    }
    return 0;
  }

  Eigen::VectorXd numeric_derivative(const Eigen::VectorXd& parameters, Eigen::Index k) const {
    double size = std::fabs(parameters[k]);
    if (size == 0.0) size = start[k] != 0.0 ? std::fabs(start[k]) : 1.0;
    const double step = size * std::pow(std::numeric_limits<double>::epsilon(), 0.2);
    Eigen::VectorXd moved = parameters;
    const auto at = [&](double offset) {
      moved[k] = parameters[k] + offset;
      return fitted(moved);
    };
    const Eigen::VectorXd near = at(step) - at(-step);
    const Eigen::VectorXd far = at(2.0 * step) - at(-2.0 * step);
    return roots.cwiseProduct(8.0 * near - far) / (12.0 * step);
  }
};

/// Gauss–Newton steps until they no longer help: Levenberg–Marquardt stops at half the digits along a flat valley.
void finish(const WeightedResiduals& problem, Eigen::VectorXd& parameters) {
  Eigen::VectorXd residuals(problem.values());
  Eigen::MatrixXd jacobian(problem.values(), problem.inputs());
  double last_step = std::numeric_limits<double>::infinity();
  for (int i = 0; i < most_finishing_steps; ++i) {
    problem(parameters, residuals);
    problem.df(parameters, jacobian);
    const Eigen::VectorXd step = fit::solve_scaled(jacobian, -residuals).step;
    const double size = jacobian.colwise().norm().transpose().cwiseProduct(step).norm();
    if (!(size < last_step)) return;
    last_step = size;
    parameters += step;
  }
}

Eigen::VectorXd search(const WeightedResiduals& problem, int& iterations) {
  Eigen::VectorXd parameters = problem.start;
  WeightedResiduals functor = problem;
  Eigen::LevenbergMarquardt<WeightedResiduals> search(functor);
  search.parameters.ftol = std::numeric_limits<double>::epsilon();
  search.parameters.xtol = std::numeric_limits<double>::epsilon();
  search.parameters.maxfev = most_evaluations;
  const auto status = search.minimize(parameters);
  iterations = static_cast<int>(search.iter);
  const bool stopped = status == Eigen::LevenbergMarquardtSpace::TooManyFunctionEvaluation ||
                       status == Eigen::LevenbergMarquardtSpace::ImproperInputParameters;
  if (stopped || !parameters.allFinite() || !(search.fnorm < 1e99))
    throw InputError("no minimum was found for the fit; give starting values nearer to the answer");
  return parameters;
}

}  // namespace

Fit fit_nonlinear(CurveModel model, std::span<const double> start, std::span<const double> observed,
                  std::optional<CurveDerivatives> derivatives, std::span<const double> weights, WeightMeaning meaning) {
  fit::require_enough(start.size(), observed, weights, meaning);
  const WeightedResiduals problem{
      model, derivatives,
      Eigen::Map<const Eigen::VectorXd>(observed.data(), static_cast<Eigen::Index>(observed.size())),
      fit::weight_roots(observed.size(), weights),
      Eigen::Map<const Eigen::VectorXd>(start.data(), static_cast<Eigen::Index>(start.size()))};
  if (!problem.start.allFinite()) throw InputError("a starting value of a fit is not a number");

  Fit result;
  Eigen::VectorXd parameters = search(problem, result.iterations);
  finish(problem, parameters);

  Eigen::MatrixXd jacobian(problem.values(), problem.inputs());
  problem.df(parameters, jacobian);
  const Eigen::VectorXd residuals = problem.observed - problem.fitted(parameters);
  const Eigen::VectorXd weighted = problem.roots.cwiseProduct(residuals);
  result.parameters.assign(parameters.begin(), parameters.end());
  result.residuals.assign(residuals.begin(), residuals.end());
  fit::complete(result, fit::solve_scaled(jacobian, weighted).inverse_of_normal_matrix, weighted, meaning);
  return result;
}

}  // namespace ohmwright
