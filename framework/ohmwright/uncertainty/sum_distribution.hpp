#pragma once

#include <cstddef>
#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/normal_and_rectangles.hpp>

namespace ohmwright {

/// Distribution of the error of an estimate, or of a part of its terms: made once, asked for many limits.
///
/// Kernel type, in the unit of the estimate. A triangle is two rectangles of half its width, so it keeps the closed
/// form of `NormalAndRectangles`. A Student's t is a normal whose variance is divided by χ²(ν)/ν: one integral over
/// that figure; a cycle (arcsine) is one integral over its phase. At most three of these two shapes are integrated, the
/// largest; where there are more, the rest counts as normal of the same standard uncertainty.
class OHMWRIGHT_CORE_API SumDistribution {
 public:
  static constexpr std::size_t max_integrated = 3;

  /// Distribution of nothing: certain zero.
  SumDistribution() = default;
  /// Of all the terms. Throws `Error` (internal) if a term names a source that is not there.
  SumDistribution(std::span<const Term> terms, std::span<const ErrorSource> sources);

  /// Adds one independent error of standard uncertainty |u| (for Student's t: its scale, as GUM 4.2 states s/√n).
  /// At most `Estimate::max_terms` of them.
  void add(Shape shape, double degrees_of_freedom, double standard_uncertainty);
  /// P(lower ≤ error ≤ upper) [dimensionless]; 0 if lower > upper; NaN if a limit or an uncertainty is NaN.
  double probability_between(double lower, double upper) const;

  /// The normal and the rectangles of it, without the shapes that are integrated.
  NormalAndRectangles closed_part() const { return closed_part(variance_); }

  /// Where the distribution function bends sharply, as offsets from its middle: the corners that the two widest
  /// rectangles make, and the middle. For whoever integrates over it and wants to cut there.
  boost::container::static_vector<double, 5> bends() const;

 private:
  /// A shape that needs an integral of its own.
  struct Integrated {
    Shape shape = Shape::student_t;
    double degrees_of_freedom = 0.0;
    double standard_uncertainty = 0.0;  ///< scale of a Student's t
  };

  void add_rectangle(double half_width);
  void add_integrated(Integrated shape);
  NormalAndRectangles closed_part(double variance) const {
    return {variance, {half_widths_.data(), half_widths_.size()}};
  }
  double integrated(std::size_t next, double variance, double lower, double upper) const;
  double over_student_t(std::size_t next, double variance, double lower, double upper) const;
  double over_cycle(std::size_t next, double variance, double lower, double upper) const;

  double variance_ = 0.0;
  boost::container::static_vector<double, 2 * Estimate::max_terms> half_widths_;  ///< ascending
  boost::container::static_vector<Integrated, max_integrated> integrated_;        ///< descending
};

}  // namespace ohmwright
