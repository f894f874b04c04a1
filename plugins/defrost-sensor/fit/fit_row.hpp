#pragma once

#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// A measured row that holds a temperature and a resistance.
struct FitRow {
  std::size_t row = 0;  ///< index into the rows as they were given
  Temperature temperature = Temperature::from_kelvin(0.0);
  Resistance resistance;
  double temperature_half_width = 0.0;  ///< [K], 0: not stated
  double log_half_width = 0.0;          ///< of ln R, 0: not stated

  double inverse_kelvin() const { return 1.0 / temperature.kelvin(); }
  double log_resistance() const { return std::log(resistance.value()); }
};

using FitRows = std::vector<FitRow>;

/// Closer than this two temperatures are one: conversion from °F leaves less [K].
inline constexpr double same_temperature_kelvin = 1e-6;

inline bool same_temperature(const FitRow& a, const FitRow& b) {
  return std::abs((a.temperature - b.temperature).value()) < same_temperature_kelvin;
}

}  // namespace ohmwright::defrost_sensor
