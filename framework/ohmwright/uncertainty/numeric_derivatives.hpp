#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/uncertainty/propagation.hpp>

namespace ohmwright {

/// Derivatives of a model at its inputs, taken numerically; every input is moved by a fraction of its uncertainty.
///
/// For inside use by the propagation. Each call throws `InputError` where the model gives no finite number.
class NumericDerivatives {
 public:
  NumericDerivatives(Model model, std::span<const PropagationInput> inputs);

  double value() const { return value_; }
  /// ∂f/∂x_i, eighth order; 0 for an input without uncertainty.
  double first(std::size_t i) const;
  /// ∂²f/∂x_i∂x_k·u_i·u_k, fourth order.
  double second_scaled(std::size_t i, std::size_t k) const;
  /// ∂³f/∂x_i∂x_k²·u_i·u_k², fourth order.
  double third_scaled(std::size_t i, std::size_t k) const;

 private:
  double at(std::size_t i, double by, std::size_t k, double and_by) const;
  double second_at_step(std::size_t i, std::size_t k, double step) const;
  double third_at_step(std::size_t i, std::size_t k, double step) const;

  Model model_;
  std::span<const PropagationInput> inputs_;
  double value_ = 0.0;
  mutable std::vector<double> point_;  // working copy of the inputs, back at their values after each call
};

}  // namespace ohmwright
