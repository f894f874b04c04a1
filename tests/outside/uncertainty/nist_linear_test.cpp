// NIST Statistical Reference Datasets (StRD), linear regression, Norris: calibration of ozone monitors, y = b0 + b1·x,
// certified values (www.itl.nist.gov/div898/strd; work of the United States government, public domain).
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/least_squares.hpp>

namespace {

constexpr std::array<double, 36> x{0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                   0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                   0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
constexpr std::array<double, 36> y{0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                   0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                   0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};

TEST(NistStrd, NorrisLine) {
  std::vector<double> design;
  for (const double value : x) {
    design.push_back(1.0);
    design.push_back(value);
  }
  const ohmwright::Fit fit = ohmwright::fit_linear(design, 2, y);
  constexpr double ten_digits = 5e-11;
  EXPECT_NEAR(fit.parameters[0] / -0.262323073774029, 1.0, ten_digits);
  EXPECT_NEAR(fit.parameters[1] / 1.00211681802045, 1.0, ten_digits);
  EXPECT_NEAR(fit.standard_uncertainty(0) / 0.232818234301152, 1.0, ten_digits);
  EXPECT_NEAR(fit.standard_uncertainty(1) / 0.429796848199937e-3, 1.0, ten_digits);
  EXPECT_NEAR(fit.weighted_sum_of_squares / 26.6173985294224, 1.0, ten_digits);
  EXPECT_EQ(fit.degrees_of_freedom, 34U);
}

}  // namespace
