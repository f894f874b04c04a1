// Student factors (GUM Table G.2 prints two decimals; six here from two independent programs) and effective degrees of
// freedom (GUM G.4).
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/propagation.hpp>

namespace {

using ohmwright::coverage_factor;
using ohmwright::Shape;

TEST(StudentFactors, AgreeWithTheTable) {
  struct Row {
    double nu, t95, t99;
  };
  for (const Row row : {Row{1, 12.706205, 63.656741}, Row{2, 4.302653, 9.924843}, Row{4, 2.776445, 4.604095},
                        Row{5, 2.570582, 4.032143}, Row{8, 2.306004, 3.355387}, Row{10, 2.228139, 3.169273},
                        Row{16, 2.119905, 2.920782}, Row{20, 2.085963, 2.845340}, Row{50, 2.008559, 2.677793}}) {
    EXPECT_NEAR(coverage_factor(0.95, row.nu), row.t95, 5e-7) << row.nu;
    EXPECT_NEAR(coverage_factor(0.99, row.nu), row.t99, 5e-7) << row.nu;
  }
  EXPECT_NEAR(coverage_factor(0.99, 16.0), 2.920781622, 1e-8);
  EXPECT_NEAR(coverage_factor(0.95, 10.0), 2.228138852, 1e-8);
}

TEST(StudentFactors, FewReadingsMakeADecisionHarder) {
  // y 1.0, u 0.1 with ν 4, limit 1.2: 0.941941738 instead of the normal's 0.977250.
  ohmwright::Estimate estimate(1.0);
  estimate.add_term(0, 0.1);
  const double infinity = std::numeric_limits<double>::infinity();
  const std::vector<ohmwright::ErrorSource> few{{"repeats", "", Shape::student_t, 4.0}};
  const std::vector<ohmwright::ErrorSource> many{{"repeats", "", Shape::normal}};
  EXPECT_NEAR(probability_between(estimate, few, -infinity, 1.2), 0.941941738, 1e-8);
  EXPECT_NEAR(probability_between(estimate, many, -infinity, 1.2), 0.977250, 5e-7);
}

TEST(WelchSatterthwaite, PublishedExamples) {
  const double known = std::numeric_limits<double>::infinity();
  // Printed 12.8 and 40 in an open metrology tool's tests.
  const std::vector<ohmwright::UncertaintyPart> two{{0.57, 9.0}, {0.25, known}};
  EXPECT_NEAR(ohmwright::welch_satterthwaite(two), 12.795649, 1e-7 * 12.8);
  const std::vector<ohmwright::UncertaintyPart> four(4, {1.0, 10.0});
  EXPECT_NEAR(ohmwright::welch_satterthwaite(four), 40.0, 1e-12);

  ohmwright::Estimate estimate(0.0);
  estimate.add_term(0, 0.57);
  estimate.add_term(1, 0.25);
  const std::vector<ohmwright::ErrorSource> sources{{"repeats", "", Shape::student_t, 9.0},
                                                    {"meter", "", Shape::normal}};
  EXPECT_NEAR(effective_degrees_of_freedom(estimate, sources), 12.795649, 1e-7 * 12.8);
  EXPECT_NEAR(estimate.standard_uncertainty(), 0.622415, 5e-7);
}

}  // namespace
