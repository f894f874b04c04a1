// The GNU Scientific Library as an independent reference for quantiles and fits. GPL: for this test program only.
#include <cmath>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit.h>
#include <limits>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/least_squares.hpp>

namespace {

TEST(GslSecondOpinion, NormalAndStudentQuantiles) {
  for (const double p : {1e-6, 0.001, 0.025, 0.1, 0.5, 0.7, 0.95, 0.995, 0.999999}) {
    EXPECT_NEAR(ohmwright::normal_quantile(p), gsl_cdf_ugaussian_Pinv(p), 1e-9);
    for (const double nu : {2.0, 3.0, 4.5, 9.0, 16.75, 50.0, 1000.0}) {
      const double expected = gsl_cdf_tdist_Pinv(p, nu);
      EXPECT_NEAR(ohmwright::student_t_quantile(p, nu), expected, 1e-8 * std::fmax(1.0, std::fabs(expected)));
      EXPECT_NEAR(ohmwright::student_t_probability_below(expected, nu), p, 1e-9);
    }
  }
}

TEST(GslSecondOpinion, SingleErrorBetweenLimits) {
  for (const double nu : {1.0, 2.5, 4.0, 30.0}) {
    ohmwright::Estimate estimate(1.0);
    estimate.add_term(0, 0.1);
    const std::vector<ohmwright::ErrorSource> sources{{"repeats", "", ohmwright::Shape::student_t, nu}};
    EXPECT_NEAR(probability_between(estimate, sources, 0.95, 1.2), gsl_cdf_tdist_P(2.0, nu) - gsl_cdf_tdist_P(-0.5, nu),
                1e-12);
  }
}

// The chart of a 10 kΩ thermistor fitted to 1/T = A + B·L + C·L³, weights T⁴.
TEST(GslSecondOpinion, WeightedFitOfAThermistorChart) {
  const std::vector<double> celsius{-40, -30, -20, -10, 0, 10, 20, 30, 40, 50};
  const std::vector<double> ohms{332100, 175200, 96360, 55050, 32550, 19870, 12490, 8059, 5330, 3605};
  const std::size_t n = ohms.size();
  std::vector<double> design;
  std::vector<double> observed;
  std::vector<double> weights;
  gsl_matrix* matrix = gsl_matrix_alloc(n, 3);
  gsl_vector* right_side = gsl_vector_alloc(n);
  gsl_vector* gsl_weights = gsl_vector_alloc(n);
  for (std::size_t i = 0; i < n; ++i) {
    const double logarithm = std::log(ohms[i]);
    const double kelvin = celsius[i] + 273.15;
    observed.push_back(1.0 / kelvin);
    weights.push_back(std::pow(kelvin, 4));
    gsl_vector_set(right_side, i, observed[i]);
    gsl_vector_set(gsl_weights, i, weights[i]);
    for (const double column : {1.0, logarithm, logarithm * logarithm * logarithm}) {
      gsl_matrix_set(matrix, i, design.size() % 3, column);
      design.push_back(column);
    }
  }
  gsl_vector* coefficients = gsl_vector_alloc(3);
  gsl_matrix* covariance = gsl_matrix_alloc(3, 3);
  gsl_multifit_linear_workspace* workspace = gsl_multifit_linear_alloc(n, 3);
  double chi_squared = 0.0;
  gsl_multifit_wlinear(matrix, gsl_weights, right_side, coefficients, covariance, &chi_squared, workspace);

  const ohmwright::Fit known =
      ohmwright::fit_linear(design, 3, observed, weights, ohmwright::WeightMeaning::inverse_variance);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_NEAR(known.parameters[k] / gsl_vector_get(coefficients, k), 1.0, 1e-9);
    EXPECT_NEAR(known.standard_uncertainty(k) / std::sqrt(gsl_matrix_get(covariance, k, k)), 1.0, 1e-9);
  }
  EXPECT_NEAR(known.weighted_sum_of_squares / chi_squared, 1.0, 1e-9);
  // The same chart with numpy: 1.131870425e-3, 2.334539663e-4, 9.213560558e-8, residual 3.886 mK.
  const ohmwright::Fit relative = ohmwright::fit_linear(design, 3, observed, weights);
  EXPECT_NEAR(relative.parameters[0] / 1.131870425e-3, 1.0, 1e-6);
  EXPECT_NEAR(relative.parameters[1] / 2.334539663e-4, 1.0, 1e-6);
  EXPECT_NEAR(relative.parameters[2] / 9.213560558e-8, 1.0, 1e-6);
  EXPECT_NEAR(relative.residual_standard_deviation(), 3.886e-3, 1e-3 * 3.886e-3);

  gsl_multifit_linear_free(workspace);
  gsl_matrix_free(covariance);
  gsl_vector_free(coefficients);
  gsl_vector_free(gsl_weights);
  gsl_vector_free(right_side);
  gsl_matrix_free(matrix);
}

}  // namespace
