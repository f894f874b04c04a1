#pragma once

#include <optional>
#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/error_source.hpp>
#include <ohmwright/uncertainty/normal_and_rectangles.hpp>
#include <ohmwright/uncertainty/sum_distribution.hpp>

namespace ohmwright {

/// An error that estimates share, seen as an integral: a parameter θ over finite limits, the error e(θ) and its weight,
/// chosen so that weight·dθ is the distribution of e. For inside use by the joint probability.
class SourceIntegral {
 public:
  using Cuts = boost::container::static_vector<double, 7>;

  /// One source; e in its standard uncertainties.
  explicit SourceIntegral(const ErrorSource& source);
  /// A sum of sources that always appear together, none of a shape that is integrated; e in the unit of the sum.
  explicit SourceIntegral(const SumDistribution& sum);

  /// Limits of θ, and between them where the weight bends; not sorted.
  Cuts cuts() const;
  double error(double theta) const;
  double weight(double theta) const;
  /// θ of an error; the nearest limit for one beyond them.
  double parameter(double error) const;

 private:
  std::optional<NormalAndRectangles> sum_;
  boost::container::static_vector<double, 5> bends_;
  Shape shape_ = Shape::normal;
  double degrees_of_freedom_ = 0.0;
  double limit_ = 0.0;
  double height_ = 0.0;
};

}  // namespace ohmwright
