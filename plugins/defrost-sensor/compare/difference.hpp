#pragma once

#include <optional>

#include <ohmwright/component/comparison.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

#include "part/sensor_ratings.hpp"

namespace ohmwright::defrost_sensor {

/// Two sensors that are to be compared.
struct Pair {
  const SensorRatings& original;
  const SensorRatings& candidate;
};

/// Places of the two curves' own errors in `curve_errors()`.
enum CurveErrorIndex : SourceIndex { original_curve, candidate_curve };
std::span<const ErrorSource> curve_errors();

/// Confidence of a comparison, as a check takes unless told otherwise.
inline constexpr double comparison_confidence = 0.95;

/// Adds what a curve may be wrong by at `t`, in ln R times `factor`. Where its sense is known (`errs_to_one_side`), the
/// value moves by half of it and half remains as doubt.
void add_curve_error(Estimate& log, const Curve& curve, CurveErrorIndex source, Temperature t, double factor);

/// How the candidate stands to the original at one temperature.
///
/// Rule: the candidate's curve must stay within what a good original may be off by (common practice, no source).
struct Difference {
  Temperature at = Temperature::from_kelvin(0.0);
  double log = 0.0;     ///< ln(R_candidate/R_original) by the curves as they are stated
  LogLimits allowed;    ///< of a good original
  Estimate estimate;    ///< `log` with the curves' own errors
  double within = 0.0;  ///< probability that it lies within `allowed`
  Outcome outcome = Outcome::undecided;
  /// What a control made for the original would take it for, less what it is; nothing where that is no temperature.
  std::optional<TemperatureDifference> kelvin;

  /// The limit on the side of the difference, and its share that is used up.
  double limit() const { return log < 0.0 ? allowed.lower : allowed.upper; }
  double share() const { return log / limit(); }
  /// |ln| of the farthest apart that the two may be.
  double farthest() const;
};

/// `t` inside both curves' domains.
Difference difference_at(const Pair& pair, Temperature t);

/// Whether the resistance falls as it gets warmer.
bool falls(const Curve& curve);

}  // namespace ohmwright::defrost_sensor
