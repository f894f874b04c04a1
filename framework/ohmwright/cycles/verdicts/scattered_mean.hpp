#pragma once

#include <algorithm>
#include <span>

#include <ohmwright/uncertainty/repeats.hpp>

namespace ohmwright::cycles {

/// Mean of what several defrosts show, with the standard uncertainty of it; 0 for a single one.
struct ScatteredMean {
  double mean = 0.0;
  double standard_uncertainty = 0.0;
  double degrees_of_freedom = 1.0;
};

/// Of at least one value (GUM 4.2.3).
inline ScatteredMean scattered_mean(std::span<const double> values) {
  if (values.size() < 2) return {values.front(), 0.0, 1.0};
  const RepeatedMean repeated = mean_of_repeats(values);
  return {repeated.mean, repeated.standard_uncertainty, std::max(1.0, static_cast<double>(values.size()) - 1.0)};
}

}  // namespace ohmwright::cycles
