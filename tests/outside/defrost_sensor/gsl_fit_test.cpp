// The GNU Scientific Library as a second opinion on fitted curves and their uncertainties. GPL: for this test program
// only.
#include <cmath>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit.h>
#include <memory>

#include <gtest/gtest.h>

#include "fit/pattern.hpp"
#include "fit/read_rows.hpp"
#include "fit_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

template <class Owned, void (*release)(Owned*)>
struct Release {
  void operator()(Owned* owned) const { release(owned); }
};
using Matrix = std::unique_ptr<gsl_matrix, Release<gsl_matrix, gsl_matrix_free>>;
using Vector = std::unique_ptr<gsl_vector, Release<gsl_vector, gsl_vector_free>>;
using Workspace =
    std::unique_ptr<gsl_multifit_linear_workspace, Release<gsl_multifit_linear_workspace, gsl_multifit_linear_free>>;

struct SecondOpinion {
  std::vector<double> parameters;
  std::vector<double> variances;  ///< for weights of 1/u²
  double chi_squared = 0.0;
};

SecondOpinion gsl(const std::vector<std::vector<double>>& design, const std::vector<double>& observed,
                  const std::vector<double>& weights) {
  const std::size_t n = observed.size();
  const std::size_t p = design[0].size();
  const Matrix matrix(gsl_matrix_alloc(n, p));
  const Vector right_side(gsl_vector_alloc(n));
  const Vector w(gsl_vector_alloc(n));
  for (std::size_t i = 0; i < n; ++i) {
    gsl_vector_set(right_side.get(), i, observed[i]);
    gsl_vector_set(w.get(), i, weights[i]);
    for (std::size_t k = 0; k < p; ++k) gsl_matrix_set(matrix.get(), i, k, design[i][k]);
  }
  const Vector parameters(gsl_vector_alloc(p));
  const Matrix covariance(gsl_matrix_alloc(p, p));
  const Workspace workspace(gsl_multifit_linear_alloc(n, p));
  SecondOpinion found;
  gsl_multifit_wlinear(matrix.get(), w.get(), right_side.get(), parameters.get(), covariance.get(), &found.chi_squared,
                       workspace.get());
  for (std::size_t k = 0; k < p; ++k) {
    found.parameters.push_back(gsl_vector_get(parameters.get(), k));
    found.variances.push_back(gsl_matrix_get(covariance.get(), k, k));
  }
  return found;
}

/// The chart as a technician might read it: a different doubt of temperature in each bath, one of the ohms in all, and
/// readings that are off by about as much.
constexpr double share_of_ohms = 0.004;

std::vector<MeasuredRow> read_rows_of_a_day() {
  const std::vector<double> half_widths{1.0, 1.0, 0.5, 0.5, 0.2, 0.5, 0.3, 0.3, 0.5, 1.0};
  const std::vector<double> off{0.4, -0.3, 0.2, -0.1, 0.05, 0.3, -0.1, 0.1, 0.2, -0.6};
  std::vector<MeasuredRow> rows;
  for (std::size_t i = 0; i < half_widths.size(); ++i) {
    const auto [t, r] = published_chart()[i];
    rows.push_back(measured(t + off[i], stated_ohms(r, share_of_ohms * r), half_widths[i]));
  }
  return rows;
}

double kelvin_of(const MeasuredRow& row) { return row.condition.value_in_si(); }
double log_of(const MeasuredRow& row) { return std::log(std::get<StatedValue>(row.observed).value.value_in_si()); }

constexpr double ten_digits_of = 1e-9;  // ours are rounded to ten; the columns of GSL are not centred

// No doubts stated: weights T⁴, covariance scaled by χ²/ν.
TEST(GslFit, SteinhartHartOfTheChart) {
  const std::vector<MeasuredRow> rows = rows_of(published_chart());
  std::vector<std::vector<double>> design;
  std::vector<double> observed;
  std::vector<double> weights;
  for (const MeasuredRow& row : rows) {
    const double l = log_of(row);
    design.push_back({1.0, l, l * l * l});
    observed.push_back(1.0 / kelvin_of(row));
    weights.push_back(std::pow(kelvin_of(row), 4));
  }
  const SecondOpinion other = gsl(design, observed, weights);
  const FittedRatings form = form_of(fit(rows), "steinhart-hart");
  const char* names[] = {"a", "b", "c"};
  for (std::size_t k = 0; k < 3; ++k) {
    const FittedFigure& figure = figure_of(form, names[k]);
    EXPECT_NEAR(figure.value / other.parameters[k], 1.0, ten_digits_of) << names[k];
    EXPECT_NEAR(figure.standard_uncertainty / std::sqrt(other.variances[k] * other.chi_squared / 7.0), 1.0, 1e-7)
        << names[k];
  }
}

// Every row with its own doubt: weights T⁴/u², covariance as it is, since χ²/ν is below 1.
TEST(GslFit, SteinhartHartOfRowsWithStatedDoubts) {
  const std::vector<MeasuredRow> rows = read_rows_of_a_day();
  const Fitting fitting = fit(rows);
  ASSERT_TRUE(fitting.remarks.empty());
  // What a share of the ohms is in kelvin: by the slope that the rows themselves show; it enters the weights only.
  std::vector<std::vector<double>> design;
  std::vector<double> observed;
  std::vector<double> weights;
  std::vector<RowRemark> remarks;
  const double slope = pattern_of(read_rows({resistance, part_temperature, rows}, remarks)).line.beta_kelvin;
  for (const MeasuredRow& row : rows) {
    const double kelvin = kelvin_of(row);
    const double l = log_of(row);
    const double half_width = std::hypot(row.condition_half_width, share_of_ohms * kelvin * kelvin / slope);
    design.push_back({1.0, l, l * l * l});
    observed.push_back(1.0 / kelvin);
    weights.push_back(std::pow(kelvin, 4) * 3.0 / (half_width * half_width));
  }
  const SecondOpinion other = gsl(design, observed, weights);
  ASSERT_LT(other.chi_squared, 7.0);
  const FittedRatings& form = form_of(fitting, "steinhart-hart");
  const char* names[] = {"a", "b", "c"};
  for (std::size_t k = 0; k < 3; ++k) {
    const FittedFigure& figure = figure_of(form, names[k]);
    EXPECT_NEAR(figure.value / other.parameters[k], 1.0, ten_digits_of) << names[k];
    EXPECT_NEAR(figure.standard_uncertainty / std::sqrt(other.variances[k]), 1.0, 1e-7) << names[k];
  }
}

// ln R over 1/T, unweighted: B and R25 with their uncertainties.
TEST(GslFit, BetaOfTheChart) {
  const std::vector<MeasuredRow> rows = rows_of(published_chart());
  std::vector<std::vector<double>> design;
  std::vector<double> observed;
  for (const MeasuredRow& row : rows) {
    design.push_back({1.0, 1.0 / kelvin_of(row) - 1.0 / 298.15});  // the first parameter is ln R25
    observed.push_back(log_of(row));
  }
  const SecondOpinion other = gsl(design, observed, std::vector<double>(rows.size(), 1.0));
  const FittedRatings form = form_of(fit(rows), "beta");
  const double scale = other.chi_squared / 8.0;
  EXPECT_NEAR(figure_of(form, "beta").value / other.parameters[1], 1.0, ten_digits_of);
  EXPECT_NEAR(figure_of(form, "beta").standard_uncertainty / std::sqrt(other.variances[1] * scale), 1.0, 1e-7);
  const double at_25 = std::exp(other.parameters[0]);
  EXPECT_NEAR(figure_of(form, "reference_resistance").value / at_25, 1.0, ten_digits_of);
  EXPECT_NEAR(
      figure_of(form, "reference_resistance").standard_uncertainty / (at_25 * std::sqrt(other.variances[0] * scale)),
      1.0, 1e-7);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
