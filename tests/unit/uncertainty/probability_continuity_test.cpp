// No figure may jump when a term passes a threshold of the method: growing any term by a factor 1 + 1e-10 moves no
// probability by more than 1e-9.
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/normal_and_rectangles.hpp>

namespace ohmwright {
namespace {

const std::vector<ErrorSource> shapes{{"normal", "", Shape::normal},          {"rectangle", "a", Shape::rectangular},
                                      {"rectangle", "b", Shape::rectangular}, {"rectangle", "c", Shape::rectangular},
                                      {"rectangle", "d", Shape::rectangular}, {"rectangle", "e", Shape::rectangular},
                                      {"triangle", "", Shape::triangular},    {"repeats", "", Shape::student_t, 4.0},
                                      {"cycle", "", Shape::arcsine}};

double probability(const std::vector<double>& uncertainties) {
  Estimate estimate(0.1);
  for (std::size_t i = 0; i < uncertainties.size(); ++i)
    estimate.add_term(static_cast<SourceIndex>(i), uncertainties[i]);
  return probability_between(estimate, shapes, -1.0, 1.3);
}

/// Grows one term from 1e-8 to 10 in fine geometric steps with a pair of near neighbours at each.
void expect_no_jump(std::vector<double> uncertainties, std::size_t moved, double factor) {
  for (double u = 1e-8; u < 10.0; u *= factor) {
    uncertainties[moved] = u;
    const double here = probability(uncertainties);
    uncertainties[moved] = u * (1.0 + 1e-10);
    ASSERT_NEAR(probability(uncertainties), here, 1e-9) << "at " << u << " of term " << moved;
  }
}

TEST(ProbabilityContinuity, RectanglesBesideANormal) {
  for (const std::size_t moved : {0U, 1U, 3U, 5U}) expect_no_jump({0.5, 0.3, 0.1, 0.05, 0.02, 0.4}, moved, 1.0013);
}

TEST(ProbabilityContinuity, RectanglesAlone) {
  for (const std::size_t moved : {1U, 2U, 5U}) expect_no_jump({0.0, 0.5, 0.3, 0.3, 0.1, 0.2}, moved, 1.0013);
}

TEST(ProbabilityContinuity, TriangleAndNormal) {
  expect_no_jump({0.2, 0.3, 0.0, 0.0, 0.0, 0.0, 0.3}, 6, 1.003);
  expect_no_jump({0.2, 0.3, 0.0, 0.0, 0.0, 0.0, 0.3}, 0, 1.003);
}

TEST(ProbabilityContinuity, StudentTAndCycle) {
  expect_no_jump({0.2, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.3}, 7, 1.02);
  expect_no_jump({0.0, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.3}, 1, 1.02);
  expect_no_jump({0.2, 0.3, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.3}, 8, 1.05);
}

TEST(ProbabilityContinuity, ExactlyAtTheFoldingThreshold) {
  // From just below to just above `narrow`, beside each other kind of term.
  for (const double other : {0.0, 0.2, 1.0}) {
    const double u = NormalAndRectangles::narrow * 0.5 / std::sqrt(3.0);
    const double below = probability({0.5, u * (1.0 - 1e-12), other});
    const double above = probability({0.5, u * (1.0 + 1e-12), other});
    EXPECT_NEAR(below, above, 1e-9);
  }
}

TEST(ProbabilityContinuity, StudentTBecomesTheNormalAsItsDegreesOfFreedomGrow) {
  Estimate estimate(0.1);
  estimate.add_term(0, 0.5);
  estimate.add_term(1, 0.2);
  const auto with = [&](double degrees_of_freedom) {
    const std::vector<ErrorSource> sources{{"repeats", "", Shape::student_t, degrees_of_freedom},
                                           {"counts", "", Shape::rectangular}};
    return probability_between(estimate, sources, -1.0, 1.0);
  };
  const double normal = with(std::numeric_limits<double>::infinity());
  for (const double nu : {10.0, 1e2, 1e3, 1e5, 1e7, 1e9, 1.999e9, 2.001e9, 1e12})
    EXPECT_NEAR(with(nu), normal, 0.32 / nu + 1e-10) << nu;  // 0.16/ν at either limit
  EXPECT_LT(with(3.0), with(10.0));
  EXPECT_LT(with(10.0), normal);
}

}  // namespace
}  // namespace ohmwright
