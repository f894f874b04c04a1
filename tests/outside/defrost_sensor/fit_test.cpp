#include <cmath>

#include <gtest/gtest.h>

#include "fit_fixture.hpp"
#include "real_charts.hpp"

// Curves fitted to charts, against figures computed elsewhere.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

double value(const Fitting& fitting, std::string_view form, std::string_view figure) {
  return figure_of(form_of(fitting, form), figure).value;
}

void expect_steinhart_hart(const Fitting& fitting, double a, double b, double c, double relative) {
  EXPECT_NEAR(value(fitting, "steinhart-hart", "a"), a, relative * a);
  EXPECT_NEAR(value(fitting, "steinhart-hart", "b"), b, relative * b);
  EXPECT_NEAR(value(fitting, "steinhart-hart", "c"), c, relative * c);
}

double worst_millikelvin(const FittedRatings& form) {
  double worst = 0.0;
  for (const AnyQuantity residual : form.residuals)
    if (std::abs(residual.value_in_si()) > std::abs(worst)) worst = residual.value_in_si();
  return 1e3 * worst;
}

// Published 3977 K material to four digits. Weights T⁴: numpy, GSL; half of the last digit given.
TEST(FitOutside, SteinhartHartOfThePublishedChart) {
  const Fitting fitting = fit(published_chart());
  const FittedRatings& form = form_of(fitting, "steinhart-hart");
  EXPECT_NEAR(figure_of(form, "a").value, 1.131870425e-3, 0.5e-12);
  EXPECT_NEAR(figure_of(form, "b").value, 2.334539663e-4, 0.5e-13);
  EXPECT_NEAR(figure_of(form, "c").value, 9.213560558e-8, 0.5e-17);
  EXPECT_NEAR(1e3 * form.standard_deviation.value_in_si(), 3.886, 5e-4);
  EXPECT_NEAR(worst_millikelvin(form), -6.2, 0.05);
}

// Plain least squares of ln R over 1/T: numpy.
TEST(FitOutside, BetaOfThePublishedChart) {
  const Fitting fitting = fit(published_chart());
  EXPECT_NEAR(value(fitting, "beta", "beta"), 3790.322330, 5e-7);
  EXPECT_NEAR(value(fitting, "beta", "reference_resistance"), 9939.208276, 1e-6);
  EXPECT_NEAR(worst_millikelvin(form_of(fitting, "beta")), 850.0, 5.0);  // "up to 0.85 K"
}

// The widely quoted worked set; published 2.108508173e-3, 0.7979204727e-4, 6.535076315e-7 (ten public programs).
TEST(FitOutside, SteinhartHartThroughTheWorkedThreePoints) {
  expect_steinhart_hart(fit(Chart{{5, 25000}, {25, 10000}, {45, 4000}}), 2.1085081731e-3, 7.9792047268e-5,
                        6.5350763146e-7, 1e-9);
}

// (0.1 °C, 30 000 ohm) and (24.8 °C, 9000 ohm): B = 3968.471669 K, R25 = 8919.946761 ohm (numpy, GSL).
TEST(FitOutside, BetaThroughTwoReadings) {
  const Fitting fitting = fit(Chart{{0.1, 30000}, {24.8, 9000}});
  EXPECT_NEAR(value(fitting, "beta", "beta"), 3968.471669, 1e-6);
  EXPECT_NEAR(value(fitting, "beta", "reference_resistance"), 8919.946761, 1e-6);
}

// The same two with ±0.2 K and ±0.5 K, and u(R)/R = 0.006 as a half-width of 0.006·√3: u(B) = 54.779082 K (numpy, GSL;
// GUM 5.1). There the sensitivity to temperature is B/T² at each reading, here the same by the weights.
TEST(FitOutside, UncertaintyOfABetaThroughTwoReadings) {
  const double half_width = 0.006 * std::sqrt(3.0);
  const std::vector<MeasuredRow> rows{measured(0.1, stated_ohms(30000, 30000 * half_width), 0.2),
                                      measured(24.8, stated_ohms(9000, 9000 * half_width), 0.5)};
  EXPECT_NEAR(figure_of(form_of(fit(rows), "beta"), "beta").standard_uncertainty, 54.779082, 1e-6 * 54.779082);
}

// NIST StRD MGH10 (public domain; NIST marks it as generated): a thermistor from 50 to 125 °C. Steinhart-Hart figures
// by exact rational arithmetic (python). Its certified curve y = b1·exp(b2/(x + b3)) is another form through the same
// rows: the two part by no more than both lie off the rows, the certified residual standard deviation of 2.601 ohm and
// that of Steinhart-Hart.
TEST(FitOutside, ThermistorOfTheNistDataSet) {
  const Fitting fitting = fit(Chart{{50, 34780},
                                    {55, 28610},
                                    {60, 23650},
                                    {65, 19630},
                                    {70, 16370},
                                    {75, 13720},
                                    {80, 11540},
                                    {85, 9744},
                                    {90, 8261},
                                    {95, 7030},
                                    {100, 6005},
                                    {105, 5147},
                                    {110, 4427},
                                    {115, 3820},
                                    {120, 3307},
                                    {125, 2872}});
  EXPECT_TRUE(fitting.remarks.empty());
  expect_steinhart_hart(fitting, 8.301649072e-4, 2.03735881e-4, 1.171590644e-7, 1e-9);
  EXPECT_NEAR(1e3 * form_of(fitting, "steinhart-hart").standard_deviation.value_in_si(), 4.240235, 1e-6);
  const SteinhartHartCurve curve({value(fitting, "steinhart-hart", "a"), value(fitting, "steinhart-hart", "b"),
                                  value(fitting, "steinhart-hart", "c")},
                                 {celsius(50), celsius(125)});
  for (double t = 50; t <= 125; t += 5) {
    const double certified = 5.6096364710e-3 * std::exp(6.1813463463e3 / (t + 3.4522363462e2));
    const double of_steinhart_hart = 4.240235e-3 * -curve.log_slope(celsius(t)) * certified;
    EXPECT_NEAR(curve.resistance(celsius(t)).value(), certified, 2.601 + of_steinhart_hart) << t;
  }
}

/// Exact rational arithmetic (python) on the rows of real_charts.hpp.
struct Expected {
  double a, b, c, millikelvin, beta, at_25;
};

constexpr std::array<Expected, 5> expected_of_real_charts{{
    {8.862927715e-4, 2.196409113e-4, 8.382835953e-8, 90.0745, 4011.433659, 44880.824317},
    {1.180201148e-3, 1.998672244e-4, 8.501270695e-8, 176.3390, 4383.690771, 30834.335839},
    {8.432852637e-4, 2.084129145e-4, 7.271021955e-8, 65.7078, 4204.571195, 95125.765964},
    {0, 0, 0, 0, 3431.322868, 10001.878149},  // c = -7.7e-10: it follows a beta
    {8.78801316e-4, 2.529416852e-4, 1.863710123e-7, 25.8270, 3322.117126, 9492.229448},
}};

// Over 160 K a good chart lies up to 0.5 K beside any Steinhart-Hart: that is no reason to leave a row out.
TEST(FitOutside, RealCharts) {
  for (std::size_t k = 0; k < real_charts.size(); ++k) {
    const RealChart& chart = real_charts[k];
    const Expected& expected = expected_of_real_charts[k];
    Chart rows;
    for (std::size_t i = 0; i < chart.ohms.size(); ++i) rows.emplace_back(real_chart_celsius[i], chart.ohms[i]);
    const Fitting fitting = fit(rows);
    EXPECT_NEAR(value(fitting, "beta", "beta"), expected.beta, 1e-6) << chart.name;
    EXPECT_NEAR(value(fitting, "beta", "reference_resistance"), expected.at_25, 1e-5) << chart.name;
    if (expected.c == 0) {
      ASSERT_EQ(remarks_of(fitting), std::vector<std::string>{"all turns-back"}) << chart.name;
      continue;
    }
    EXPECT_TRUE(fitting.remarks.empty()) << chart.name;
    expect_steinhart_hart(fitting, expected.a, expected.b, expected.c, 1e-9);
    const double millikelvin = 1e3 * form_of(fitting, "steinhart-hart").standard_deviation.value_in_si();
    EXPECT_NEAR(millikelvin, expected.millikelvin, 1e-3) << chart.name;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
