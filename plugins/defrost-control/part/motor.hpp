#pragma once

#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::defrost_control {

/// Copper's temperature of extrapolated zero resistance, its sign reversed [K]: 234.5 degC (product standards for
/// appliances; IEC 60034-1 has 235).
inline constexpr double copper_inferred_zero = 234.5;

/// Factor that brings a copper winding's resistance from `t` to `reference` [dimensionless]; valid above -200 degC.
/// Source: R2 = R1 (k + t2)/(k + t1), the winding law of IEC 60034-1.
inline double copper_factor(Temperature t, Temperature reference) {
  return (copper_inferred_zero + reference.celsius()) / (copper_inferred_zero + t.celsius());
}

/// Its derivative by `t` [1/K].
inline double copper_factor_slope(Temperature t, Temperature reference) {
  return -copper_factor(t, reference) / (copper_inferred_zero + t.celsius());
}

}  // namespace ohmwright::defrost_control
