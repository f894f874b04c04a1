#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

TEST(Distribution, HalfWidthToStandardUncertaintyAndBack) {
  EXPECT_DOUBLE_EQ(standard_uncertainty_of_half_width(Shape::rectangular, 3.0), std::sqrt(3.0));
  EXPECT_DOUBLE_EQ(standard_uncertainty_of_half_width(Shape::triangular, 6.0), std::sqrt(6.0));
  EXPECT_DOUBLE_EQ(standard_uncertainty_of_half_width(Shape::arcsine, 2.0), std::sqrt(2.0));
  for (const Shape shape : {Shape::rectangular, Shape::triangular, Shape::arcsine})
    EXPECT_DOUBLE_EQ(half_width_of(shape, standard_uncertainty_of_half_width(shape, 0.7)), 0.7);
}

TEST(Distribution, OneDisplayStep) {
  EXPECT_NEAR(standard_uncertainty_of_resolution(1.0), 0.29, 0.002);
}  // GUM F.2.2.1

TEST(Distribution, ShapesWithoutLimitsHaveNoHalfWidth) {
  const char* text =
      "a normal or Student's t has no half-width; only rectangular, triangular and arcsine shapes have limits";
  test::expect_error([] { standard_uncertainty_of_half_width(Shape::normal, 1.0); }, ErrorCategory::internal, text);
  test::expect_error([] { half_width_of(Shape::student_t, 1.0); }, ErrorCategory::internal, text);
}

TEST(Distribution, RefusesNegativeSizes) {
  test::expect_error([] { standard_uncertainty_of_half_width(Shape::rectangular, -1.0); }, ErrorCategory::internal,
                     "the half-width of an error is -1.000000; it must be 0 or more");
  test::expect_error([] { half_width_of(Shape::rectangular, std::nan("")); }, ErrorCategory::internal,
                     "a standard uncertainty is nan; it must be 0 or more");
}

TEST(Distribution, DegreesOfFreedomOfADoubtfulUncertainty) {
  EXPECT_DOUBLE_EQ(degrees_of_freedom_of_relative_doubt(0.25), 8.0);  // GUM G.4.2, example
  EXPECT_EQ(degrees_of_freedom_of_relative_doubt(0.0), std::numeric_limits<double>::infinity());
}

TEST(Distribution, CoverageFactorOfKnownUncertaintyIsNormal) {
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_NEAR(coverage_factor(0.95, infinity), 1.959963984540054, 1e-12);
  EXPECT_NEAR(student_t_quantile(0.975, infinity), normal_quantile(0.975), 1e-12);
  EXPECT_NEAR(student_t_probability_below(1.0, infinity), normal_probability_below(1.0), 1e-12);
}

TEST(Distribution, RefusesQuantilesThatDoNotExist) {
  test::expect_error([] { normal_quantile(1.0); }, ErrorCategory::internal,
                     "a quantile was asked for probability 1.000000; it must lie between 0 and 1");
  test::expect_error([] { coverage_factor(0.95, 0.0); }, ErrorCategory::internal,
                     "degrees of freedom are 0.000000; they must be above 0");
}

}  // namespace
}  // namespace ohmwright
