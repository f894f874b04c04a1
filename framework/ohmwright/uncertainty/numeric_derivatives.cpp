#include <cmath>

#include <boost/math/differentiation/finite_difference.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/numeric_derivatives.hpp>

namespace ohmwright {

namespace {

/// Steps of the higher derivatives, in units of the uncertainty: wide, because each order costs digits; two of them,
/// because Richardson's (4·fine − coarse)/3 takes the error of second order out.
constexpr double coarse_step = 1.0;
constexpr double fine_step = 0.5;

double richardson(double fine, double coarse) { return (4.0 * fine - coarse) / 3.0; }

}  // namespace

NumericDerivatives::NumericDerivatives(Model model, std::span<const PropagationInput> inputs)
    : model_(model), inputs_(inputs) {
  point_.reserve(inputs.size());
  for (const PropagationInput& input : inputs) point_.push_back(input.value);
  value_ = at(0, 0.0, 0, 0.0);
}

/// The model with input i moved by `by` and input k by `and_by`.
double NumericDerivatives::at(std::size_t i, double by, std::size_t k, double and_by) const {
  if (!inputs_.empty()) {
    point_[i] += by;
    point_[k] += and_by;
  }
  const double result = model_(point_);
  if (!inputs_.empty()) {
    point_[i] = inputs_[i].value;
    point_[k] = inputs_[k].value;
  }
  if (!std::isfinite(result))
    throw InputError("the model gives no number at its inputs or close by; the inputs lie at the edge of its range");
  return result;
}

double NumericDerivatives::first(std::size_t i) const {
  const double uncertainty = inputs_[i].standard_uncertainty;
  if (uncertainty == 0.0) return 0.0;
  // Not less than a thousandth of the value: against a large value a tiny uncertainty would drown in rounding.
  const double unit = std::fmax(uncertainty, 1e-3 * std::fabs(inputs_[i].value));
  const auto along = [&](double t) { return at(i, t * unit, i, 0.0); };
  return boost::math::differentiation::finite_difference_derivative<decltype(along), double, 8>(along, 0.0) / unit;
}

double NumericDerivatives::second_scaled(std::size_t i, std::size_t k) const {
  return richardson(second_at_step(i, k, fine_step), second_at_step(i, k, coarse_step));
}

double NumericDerivatives::third_scaled(std::size_t i, std::size_t k) const {
  return richardson(third_at_step(i, k, fine_step), third_at_step(i, k, coarse_step));
}

double NumericDerivatives::second_at_step(std::size_t i, std::size_t k, double step) const {
  const double a = step * inputs_[i].standard_uncertainty;
  const double b = step * inputs_[k].standard_uncertainty;
  if (i == k) return (at(i, a, i, 0.0) - 2.0 * value_ + at(i, -a, i, 0.0)) / (step * step);
  return (at(i, a, k, b) - at(i, a, k, -b) - at(i, -a, k, b) + at(i, -a, k, -b)) / (4.0 * step * step);
}

double NumericDerivatives::third_at_step(std::size_t i, std::size_t k, double step) const {
  const double a = step * inputs_[i].standard_uncertainty;
  const double b = step * inputs_[k].standard_uncertainty;
  const double cube = step * step * step;
  if (i == k) {
    return (at(i, 2.0 * a, i, 0.0) - 2.0 * at(i, a, i, 0.0) + 2.0 * at(i, -a, i, 0.0) - at(i, -2.0 * a, i, 0.0)) /
           (2.0 * cube);
  }
  const double raised = at(i, a, k, b) - 2.0 * at(i, a, k, 0.0) + at(i, a, k, -b);
  const double lowered = at(i, -a, k, b) - 2.0 * at(i, -a, k, 0.0) + at(i, -a, k, -b);
  return (raised - lowered) / (2.0 * cube);
}

}  // namespace ohmwright
