#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/distribution.hpp>

namespace ohmwright {

namespace {

/// Half-width over standard uncertainty.
double spread_of(Shape shape) {
  switch (shape) {
    case Shape::rectangular:
      return std::numbers::sqrt3;
    case Shape::triangular:
      return std::numbers::sqrt2 * std::numbers::sqrt3;
    case Shape::arcsine:
      return std::numbers::sqrt2;
    case Shape::normal:
    case Shape::student_t:
      break;
  }
  throw Error(ErrorCategory::internal,
              "a normal or Student's t has no half-width; only rectangular, triangular and arcsine shapes have limits");
}

void require_probability(double probability) {
  if (probability > 0.0 && probability < 1.0) return;
  throw Error(ErrorCategory::internal,
              "a quantile was asked for probability " + std::to_string(probability) + "; it must lie between 0 and 1");
}

void require_degrees_of_freedom(double degrees_of_freedom) {
  if (degrees_of_freedom > 0.0) return;
  throw Error(ErrorCategory::internal,
              "degrees of freedom are " + std::to_string(degrees_of_freedom) + "; they must be above 0");
}

}  // namespace

double standard_uncertainty_of_half_width(Shape shape, double half_width) {
  const double spread = spread_of(shape);
  if (!(half_width >= 0.0)) {
    throw Error(ErrorCategory::internal,
                "the half-width of an error is " + std::to_string(half_width) + "; it must be 0 or more");
  }
  return half_width / spread;
}

double half_width_of(Shape shape, double standard_uncertainty) {
  const double spread = spread_of(shape);
  if (!(standard_uncertainty >= 0.0)) {
    throw Error(ErrorCategory::internal,
                "a standard uncertainty is " + std::to_string(standard_uncertainty) + "; it must be 0 or more");
  }
  return standard_uncertainty * spread;
}

double standard_uncertainty_of_resolution(double resolution) {
  return standard_uncertainty_of_half_width(Shape::rectangular, 0.5 * resolution);
}

double degrees_of_freedom_of_relative_doubt(double relative_doubt) {
  if (!(relative_doubt >= 0.0)) {
    throw Error(ErrorCategory::internal,
                "the relative doubt of an uncertainty is " + std::to_string(relative_doubt) + "; it must be 0 or more");
  }
  if (relative_doubt == 0.0) return std::numeric_limits<double>::infinity();
  return 0.5 / (relative_doubt * relative_doubt);
}

double normal_probability_below(double z) { return 0.5 * std::erfc(-z / std::numbers::sqrt2); }

double normal_quantile(double probability) {
  require_probability(probability);
  return quantile(boost::math::normal(), probability);
}

double student_t_probability_below(double t, double degrees_of_freedom) {
  require_degrees_of_freedom(degrees_of_freedom);
  return cdf(boost::math::students_t(degrees_of_freedom), t);
}

double student_t_quantile(double probability, double degrees_of_freedom) {
  require_probability(probability);
  require_degrees_of_freedom(degrees_of_freedom);
  return quantile(boost::math::students_t(degrees_of_freedom), probability);
}

double coverage_factor(double probability, double degrees_of_freedom) {
  require_probability(probability);
  require_degrees_of_freedom(degrees_of_freedom);
  return quantile(complement(boost::math::students_t(degrees_of_freedom), 0.5 * (1.0 - probability)));
}

}  // namespace ohmwright
