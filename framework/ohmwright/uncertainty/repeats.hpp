#pragma once

#include <span>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Mean of repeated readings with the uncertainty of that mean (GUM 4.2), in the unit of the readings.
struct RepeatedMean {
  double mean = 0.0;
  double standard_deviation = 0.0;    ///< s of one reading
  double standard_uncertainty = 0.0;  ///< s/√n of the mean
  double degrees_of_freedom = 0.0;    ///< n − 1
};

/// Mean, s, s/√n and n − 1 of the readings. Throws `Error` (internal) for fewer than two.
OHMWRIGHT_CORE_API RepeatedMean mean_of_repeats(std::span<const double> readings);

/// Covariance of the means of two quantities read together, pair by pair (GUM 5.2.3, equation 17).
/// Throws `Error` (internal) for fewer than two pairs or unequal numbers.
OHMWRIGHT_CORE_API double covariance_of_means(std::span<const double> first, std::span<const double> second);

/// Correlation coefficient r of the two means [dimensionless]; 0 if one of them does not scatter. Errors as above.
OHMWRIGHT_CORE_API double correlation_of_means(std::span<const double> first, std::span<const double> second);

}  // namespace ohmwright
