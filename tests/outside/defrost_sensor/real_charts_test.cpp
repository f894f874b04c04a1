#include "real_charts.hpp"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "curves/chart_curve.hpp"
#include "curves/slope_change.hpp"
#include "sensor_fixture.hpp"

// What published materials do between and beyond the temperatures at which they are known, against the bounds of
// curves/slope_change.hpp.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

constexpr std::size_t at_25 = 7;
constexpr std::size_t at_85 = 14;

CurvePoint row(const RealChart& chart, std::size_t i) { return {celsius(real_chart_celsius[i]), ohm(chart.ohms[i])}; }

double inverse(const RealChart& chart, std::size_t i) { return 1.0 / row(chart, i).temperature.kelvin(); }

double slope(const RealChart& chart, std::size_t i, std::size_t j) {
  return std::log(chart.ohms[i] / chart.ohms[j]) / (inverse(chart, i) - inverse(chart, j));
}

/// The rows by ten kelvin: those at 25 and 85 °C stand between two of them.
std::vector<std::size_t> even_rows() {
  std::vector<std::size_t> rows;
  for (std::size_t i = 0; i < real_chart_celsius.size(); ++i)
    if (i != at_25 && i != at_85) rows.push_back(i);
  return rows;
}

/// Largest d²(ln R)/d(1/T)² over chords of 20 K: over 10 K the rounding of the charts would show.
double largest_bend(const RealChart& chart) {
  const std::vector<std::size_t> rows = even_rows();
  double largest = 0.0;
  for (std::size_t k = 0; k + 4 < rows.size(); ++k) {
    const double colder = slope(chart, rows[k], rows[k + 2]);
    const double warmer = slope(chart, rows[k + 2], rows[k + 4]);
    const double apart = 0.5 * (inverse(chart, rows[k]) - inverse(chart, rows[k + 4]));
    largest = std::max(largest, (warmer - colder) / apart);
  }
  return largest;
}

// Of the published four-coefficient set (nine public programs) the bend is 2C + 6D/T in closed form: 3.267e5 K² at -40
// °C.
TEST(Bend, OfThePublishedMaterial) {
  double largest = 0.0;
  for (double t = -40; t <= 85; t += 1)
    largest = std::max(largest, std::abs(2.0 * -115334.0 + 6.0 * -3.730535e6 / celsius(t).kelvin()));
  EXPECT_NEAR(largest, 3.2667e5, 5.0);
  EXPECT_LT(largest, largest_bend_kelvin_squared);
}

// One of the five has nearly twice the bend of that material: the bound of the one would not do for all.
TEST(Bend, OfFivePublishedChartsStaysBelowTheBound) {
  double largest = 0.0;
  for (const RealChart& chart : real_charts) {
    EXPECT_LT(largest_bend(chart), largest_bend_kelvin_squared) << chart.name;
    largest = std::max(largest, largest_bend(chart));
  }
  EXPECT_NEAR(largest, 5.7e5, 0.05e5);
}

/// ±half of the last digit of a chart of three digits.
constexpr double rounding = 0.0015;

// The slope grows as it gets warmer, or stays, up to 90 °C; then that of one material falls.
TEST(Bend, OfFivePublishedChartsHasOneSenseUpTo90) {
  constexpr double of_rounding = 8.0;  // ±half of the last digit over 20 K [K]
  bool any_falls_above = false;
  for (const RealChart& chart : real_charts) {
    const std::vector<std::size_t> rows = even_rows();
    for (std::size_t k = 0; k + 4 < rows.size(); ++k) {
      const double grows = slope(chart, rows[k + 2], rows[k + 4]) - slope(chart, rows[k], rows[k + 2]);
      const bool known = bend_has_known_sense(row(chart, rows[k + 4]).temperature);
      EXPECT_TRUE(!known || grows > -of_rounding) << chart.name << real_chart_celsius[rows[k + 2]];
      any_falls_above = any_falls_above || (!known && grows < -of_rounding);
    }
  }
  EXPECT_TRUE(any_falls_above);
}

// Leave every second row out and ask for it: it lies above the straight line between its neighbours, by no more than
// the bound. Above 90 °C too, within the rounding.
TEST(Interpolation, OfFivePublishedChartsErrsToOneSideAndWithinTheBound) {
  for (const RealChart& chart : real_charts) {
    const std::vector<std::size_t> rows = even_rows();
    for (std::size_t k = 0; k + 2 < rows.size(); ++k) {
      const ChartCurve sparse({row(chart, rows[k]), row(chart, rows[k + 2])});
      const CurvePoint between = row(chart, rows[k + 1]);
      const double off = std::log(between.resistance.value()) - sparse.log_resistance(between.temperature);
      EXPECT_GT(off, -rounding) << chart.name << between.temperature.celsius();
      EXPECT_LT(off, sparse.model_error(between.temperature) + rounding) << chart.name << between.temperature.celsius();
    }
  }
}

TEST(Interpolation, BetweenTheTwoOuterRowsAlone) {
  for (const RealChart& chart : real_charts) {
    const ChartCurve two({row(chart, 0), row(chart, 18)});
    for (std::size_t i = 1; i < 18; ++i) {
      const CurvePoint between = row(chart, i);
      const double off = std::log(between.resistance.value()) - two.log_resistance(between.temperature);
      EXPECT_GT(off, -rounding) << chart.name << between.temperature.celsius();
      EXPECT_LT(off, two.model_error(between.temperature) + rounding) << chart.name << between.temperature.celsius();
    }
  }
}

// A B25/85 against its own material's chart: the real one lies between the beta and the beta with its bound.
TEST(TwoPointBeta, OfFivePublishedChartsErrsToOneSideAndWithinTheBound) {
  for (const RealChart& chart : real_charts) {
    BetaCurve::Figures figures;
    figures.reference_resistance = ohm(chart.ohms[at_25]);
    figures.beta_kelvin = slope(chart, at_25, at_85);
    EXPECT_NEAR(figures.beta_kelvin, chart.b25_85, 0.05) << chart.name;
    const BetaCurve beta(figures);
    double largest_share = 0.0;
    for (std::size_t i = 0; i < real_chart_celsius.size(); ++i) {
      const CurvePoint real = row(chart, i);
      const double off = std::log(real.resistance.value()) - beta.log_resistance(real.temperature);
      const double bound = beta.model_error(real.temperature);
      EXPECT_GT(off, std::min(bound, 0.0) - rounding) << chart.name << real.temperature.celsius();
      EXPECT_LT(off, std::max(bound, 0.0) + rounding) << chart.name << real.temperature.celsius();
      if (std::abs(bound) > 0.05) largest_share = std::max(largest_share, off / bound);
    }
    EXPECT_LT(largest_share, 0.68) << chart.name;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
