#pragma once

#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/component/fitting.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright {

/// A resistance that every row tells anew: of a cold element, of a winding at its reference temperature. For the
/// authors of kinds.
struct MeanFit {
  std::string_view form;    ///< "winding"
  std::string_view figure;  ///< as the ratings call it
  /// Turns ohms at a temperature [K] into those at the reference.
  double (*factor)(double kelvin) = [](double) { return 1.0; };
  /// How far good parts of one type lie about the one that was measured, a share of the mean. Where the
  /// mean is in more doubt (k = 2) there are no ratings: limits about it would pass and condemn by luck.
  double between_parts = std::numeric_limits<double>::infinity();
  /// Rows that were warmer are left out [K].
  double warmest_kelvin = std::numeric_limits<double>::infinity();
  /// Where the ratings hold, told beside their figure [K]; nothing: they hold anywhere.
  std::optional<double> reference_kelvin = std::nullopt;
};

/// What the rows that were used give.
struct FittedMean {
  double ohms = 0.0;                  ///< at the reference
  double standard_uncertainty = 0.0;  ///< of the mean: scatter of the rows, and the meter with its leads
  std::size_t rows = 0;
};

/// The mean of rows of resistance, with its ratings as `ratings` makes them.
///
/// Never fits through rows that contradict each other: a row more than 10 % from the median is left out and named
/// (common practice, no source), one that is a thousand times off as a slip of its unit; where not more than half of
/// the rows lie within 10 % of the median, there is no form at all. The meter's error is in every row alike, so it does
/// not shrink with their number; the scatter does (GUM 4.2.3).
OHMWRIGHT_CORE_API Fitting fit_mean(const FitRequest& request, const MeanFit& fit,
                                    FunctionRef<ValueNode(const FittedMean&)> ratings);

/// "fitted from one row", "fitted from 3 rows": where a figure comes from.
OHMWRIGHT_CORE_API std::string fitted_from(std::size_t rows);

/// A figure of ratings with where it comes from: {"value": "32.1 ohm", "source": "…"}.
OHMWRIGHT_CORE_API ValueNode sourced_figure(std::string value, std::string source);

/// "32.13 ohm", as ratings state it.
OHMWRIGHT_CORE_API std::string ratings_text(AnyQuantity value);

}  // namespace ohmwright
