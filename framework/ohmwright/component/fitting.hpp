#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// One measured row: a condition, and what was read there.
struct MeasuredRow {
  AnyQuantity condition;
  double condition_half_width = 0.0;  ///< SI; 0: not stated
  Observed observed;
  /// What a value is after the leads were subtracted [SI]; nothing: as it was shown.
  std::optional<double> value_in_si = std::nullopt;
  double meter_standard_uncertainty = 0.0;  ///< SI: of the meter and its leads
  /// The half-width is what the kind takes where nobody states one. What scatters over many rows tells more of it than
  /// the assumption; of a point where something changes it is all there is.
  bool half_width_assumed = false;
};

/// The value that a row shows, leads subtracted where they are known [SI]; nothing where it shows none.
OHMWRIGHT_CORE_API std::optional<double> value_in_si(const MeasuredRow& row);

/// What is to be fitted.
struct FitRequest {
  std::uint16_t measurand = 0;        ///< index into `Descriptor::measurands`: what the rows hold
  std::uint16_t condition = 0;        ///< index into `Descriptor::conditions`: what they were read at
  std::span<const MeasuredRow> rows;  ///< in the order in which they were read
};

/// In place of a row's index: what is said holds for all rows together.
inline constexpr std::size_t all_rows = static_cast<std::size_t>(-1);

/// What is said of one row: that it breaks the pattern, repeats another, looks slipped in its unit.
struct RowRemark {
  std::size_t row = 0;    ///< index into the rows, or `all_rows`
  bool left_out = false;  ///< the fit does without it; never silently
  TextEntry text;         ///< of the kind's text domain
  FindingArguments arguments;
};

/// A figure of a fit. Its unit is text: the coefficients of a curve have units, 1/K, that no instrument shows.
struct FittedFigure {
  std::string name;  ///< as the ratings call it: "beta"
  double value = 0.0;
  double standard_uncertainty = 0.0;
  std::string unit;  ///< "K", "1/K"; empty: a plain number
};

/// Ratings of one form, made from measured rows, with how well they fit.
struct FittedRatings {
  std::string form;   ///< "beta", "steinhart-hart"
  ValueNode ratings;  ///< valid against the kind's schema; null where the rows do not give all that it asks for
  std::vector<FittedFigure> figures;
  std::vector<AnyQuantity> residuals;  ///< one a row, left-out rows too, in the unit of the condition
  AnyQuantity standard_deviation{Dimension::ratio, 0.0};  ///< of the residuals of the rows used
  AnyQuantity from{Dimension::ratio, 0.0};                ///< span of the rows used
  AnyQuantity to{Dimension::ratio, 0.0};
};

/// Everything that came of fitting.
struct Fitting {
  std::vector<FittedRatings> forms;  ///< best first
  std::vector<RowRemark> remarks;    ///< in the order of the rows
};

}  // namespace ohmwright
