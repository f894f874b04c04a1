#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/component/fitting.hpp>

#include "curves/curve.hpp"
#include "fit/fit_row.hpp"
#include "fit/ratings_text.hpp"

namespace ohmwright::defrost_sensor {

/// A curve of one form, made from rows.
struct Form {
  std::string name;
  ValueNode curve_node;
  std::shared_ptr<const Curve> curve;
  std::vector<FittedFigure> figures;
  std::size_t parameters = 0;  ///< fitted ones
};

// Each takes good rows from cold to hot, every temperature once, and their doubts in kelvin or none. Nothing where the
// rows are too few or the curve would be no thermistor's.

/// 1/T = A + B·L + C·L³ by linear least squares with weights T⁴, so that what is minimised is in kelvin (dT =
/// −T²·d(1/T)). L and L³ lose their means before solving: the columns are nearly collinear. Needs B > 0 and C > 0.
std::optional<Form> fit_steinhart_hart(const FitRows& rows, std::span<const double> doubts);

/// ln R over 1/T, a straight line. Its rating `beta_between` names the two temperatures at which it is exact: those
/// where the line of a gently bent curve crosses it, roots of the parabola u² − (m₃/m₂)·u − m₂ over u = 1/T − mean (own
/// derivation: the least-squares residual of u²). With two rows these are the rows themselves.
std::optional<Form> fit_beta(const FitRows& rows, std::span<const double> doubts);

/// The rows themselves, at most `most_chart_rows`. Where two of them make no thermistor's step, `trouble` gets the one
/// to speak of, and there is no chart.
std::optional<Form> chart_of(const FitRows& rows, std::optional<std::size_t>& trouble);

/// As many as the schema takes.
inline constexpr std::size_t most_chart_rows = 1000;

}  // namespace ohmwright::defrost_sensor
