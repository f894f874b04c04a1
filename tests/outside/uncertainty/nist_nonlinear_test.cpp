// NIST Statistical Reference Datasets (StRD), non-linear regression, certified values of the data files MGH10.dat,
// Misra1a.dat and DanWood.dat (www.itl.nist.gov/div898/strd; work of the United States government, public domain).
// NIST rates MGH10, a thermistor's curve, as of higher difficulty. Asked: 7 certified digits or more from both starts.
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/least_squares.hpp>

namespace {

using ohmwright::CurveDerivatives;
using ohmwright::CurveModel;
using ohmwright::Fit;

constexpr double seven_digits = 5e-8;

struct Certified {
  std::vector<double> parameters;
  std::vector<double> standard_deviations;
  double residual_sum_of_squares = 0.0;
  double residual_standard_deviation = 0.0;
  std::size_t degrees_of_freedom = 0;
};

void expect_certified(const Fit& fit, const Certified& certified) {
  for (std::size_t i = 0; i < certified.parameters.size(); ++i) {
    EXPECT_NEAR(fit.parameters[i] / certified.parameters[i], 1.0, seven_digits) << "parameter " << i + 1;
    EXPECT_NEAR(fit.standard_uncertainty(i) / certified.standard_deviations[i], 1.0, seven_digits) << "sd " << i + 1;
  }
  EXPECT_NEAR(fit.weighted_sum_of_squares / certified.residual_sum_of_squares, 1.0, seven_digits);
  EXPECT_NEAR(fit.residual_standard_deviation() / certified.residual_standard_deviation, 1.0, seven_digits);
  EXPECT_EQ(fit.degrees_of_freedom, certified.degrees_of_freedom);
}

/// From each start, with given and with numeric derivatives.
void expect_certified_from(const std::vector<std::vector<double>>& starts, CurveModel model,
                           CurveDerivatives derivatives, std::span<const double> observed, const Certified& certified) {
  for (const std::vector<double>& start : starts) {
    SCOPED_TRACE(testing::Message() << "start " << start[0]);
    expect_certified(ohmwright::fit_nonlinear(model, start, observed, derivatives), certified);
    expect_certified(ohmwright::fit_nonlinear(model, start, observed), certified);
  }
}

// Meyer (1970), in Nonlinear Programming, Academic Press, 465–486: y = b1·exp(b2/(x + b3)).
namespace mgh10 {
constexpr std::array<double, 16> y{34780.0, 28610.0, 23650.0, 19630.0, 16370.0, 13720.0, 11540.0, 9744.0,
                                   8261.0,  7030.0,  6005.0,  5147.0,  4427.0,  3820.0,  3307.0,  2872.0};
constexpr std::array<double, 16> x{50.0, 55.0, 60.0,  65.0,  70.0,  75.0,  80.0,  85.0,
                                   90.0, 95.0, 100.0, 105.0, 110.0, 115.0, 120.0, 125.0};

void model(std::span<const double> b, std::span<double> fitted) {
  for (std::size_t i = 0; i < x.size(); ++i) fitted[i] = b[0] * std::exp(b[1] / (x[i] + b[2]));
}
void derivatives(std::span<const double> b, std::span<double> rows) {
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double growth = std::exp(b[1] / (x[i] + b[2]));
    rows[3 * i] = growth;
    rows[3 * i + 1] = b[0] * growth / (x[i] + b[2]);
    rows[3 * i + 2] = -b[0] * growth * b[1] / ((x[i] + b[2]) * (x[i] + b[2]));
  }
}
}  // namespace mgh10

TEST(NistStrd, Mgh10FromBothStarts) {
  expect_certified_from({{2.0, 400000.0, 25000.0}, {0.02, 4000.0, 250.0}}, mgh10::model, mgh10::derivatives, mgh10::y,
                        {{5.6096364710E-03, 6.1813463463E+03, 3.4522363462E+02},
                         {1.5687892471E-04, 2.3309021107E+01, 7.8486103508E-01},
                         8.7945855171E+01,
                         2.6009740065E+00,
                         13});
}

// Misra, NIST (1978), monomolecular adsorption: y = b1·(1 − exp(−b2·x)).
namespace misra1a {
constexpr std::array<double, 14> y{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                   44.82, 50.76, 55.05, 61.01, 66.4,  75.47, 81.78};
constexpr std::array<double, 14> x{77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                   378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};

void model(std::span<const double> b, std::span<double> fitted) {
  for (std::size_t i = 0; i < x.size(); ++i) fitted[i] = -b[0] * std::expm1(-b[1] * x[i]);
}
void derivatives(std::span<const double> b, std::span<double> rows) {
  for (std::size_t i = 0; i < x.size(); ++i) {
    rows[2 * i] = -std::expm1(-b[1] * x[i]);
    rows[2 * i + 1] = b[0] * x[i] * std::exp(-b[1] * x[i]);
  }
}
}  // namespace misra1a

TEST(NistStrd, Misra1aFromBothStarts) {
  expect_certified_from({{500.0, 0.0001}, {250.0, 0.0005}}, misra1a::model, misra1a::derivatives, misra1a::y,
                        {{2.3894212918E+02, 5.5015643181E-04},
                         {2.7070075241E+00, 7.2668688436E-06},
                         1.2455138894E-01,
                         1.0187876330E-01,
                         12});
}

// Daniel and Wood, Fitting Equations to Data, 2nd ed., Wiley 1980, 428–431, carbon filament lamp: y = b1·x^b2.
namespace danwood {
constexpr std::array<double, 6> y{2.138, 3.421, 3.597, 4.34, 4.882, 5.66};
constexpr std::array<double, 6> x{1.309, 1.471, 1.49, 1.565, 1.611, 1.68};

void model(std::span<const double> b, std::span<double> fitted) {
  for (std::size_t i = 0; i < x.size(); ++i) fitted[i] = b[0] * std::pow(x[i], b[1]);
}
void derivatives(std::span<const double> b, std::span<double> rows) {
  for (std::size_t i = 0; i < x.size(); ++i) {
    rows[2 * i] = std::pow(x[i], b[1]);
    rows[2 * i + 1] = b[0] * std::pow(x[i], b[1]) * std::log(x[i]);
  }
}
}  // namespace danwood

TEST(NistStrd, DanWoodFromBothStarts) {
  expect_certified_from({{1.0, 5.0}, {0.7, 4.0}}, danwood::model, danwood::derivatives, danwood::y,
                        {{7.6886226176E-01, 3.8604055871E+00},
                         {1.8281973860E-02, 5.1726610913E-02},
                         4.3173084083E-03,
                         3.2853114039E-02,
                         4});
}

}  // namespace
