// Readings of appliance parts: budgets of our own, each figure computed twice with programs that share no code with
// ours (Python/numpy, a C program on GSL, mpmath; the two-rectangle probability on a 4000 × 4000 grid). Rules:
// GUM 4.3.7, 5.1.2 and 5.2.2, JCGM 106.
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/monte_carlo.hpp>
#include <ohmwright/uncertainty/propagation.hpp>
#include <ohmwright/uncertainty/risk.hpp>

namespace {

using ohmwright::Estimate;
using ohmwright::PropagationInput;
using ohmwright::Shape;
using ohmwright::standard_uncertainty_of_half_width;

// B = ln(R1/R2)/(1/T1 − 1/T2) from (0.1 °C, 30 000 Ω) and (24.8 °C, 9000 Ω); inputs R1, R2, T1, T2, common gain.
double slope_of_curve(std::span<const double> x) {
  return std::log(x[0] * (1.0 + x[4]) / (x[1] * (1.0 + x[4]))) / (1.0 / x[2] - 1.0 / x[3]);
}

std::vector<PropagationInput> two_soaked_readings(double u_cold, double u_warm, double u_gain) {
  return {{"R cold", 30000.0, u_cold},
          {"R warm", 9000.0, u_warm},
          {"T cold", 273.25, standard_uncertainty_of_half_width(Shape::rectangular, 0.2)},
          {"T warm", 297.95, standard_uncertainty_of_half_width(Shape::rectangular, 0.5)},
          {"gain", 0.0, u_gain}};
}

TEST(ThermistorSlope, FromTwoReadings) {
  const auto result = propagate(slope_of_curve, two_soaked_readings(180.0, 54.0, 0.0));
  EXPECT_NEAR(result.value, 3968.471669, 1e-6 * 3968);
  EXPECT_NEAR(result.standard_uncertainty, 54.779082, 1e-6 * 54.8);
}

TEST(ThermistorSlope, CommonGainCancels) {
  // 0.9 % of reading and 3 counts (10 Ω cold, 1 Ω warm); the percents common to both readings, or not.
  const auto u = [](double half_width) { return standard_uncertainty_of_half_width(Shape::rectangular, half_width); };
  const auto common = propagate(slope_of_curve, two_soaked_readings(u(30.0), u(3.0), u(0.009)));
  EXPECT_NEAR(common.standard_uncertainty, 47.143626, 1e-7 * 47);
  const auto separate =
      propagate(slope_of_curve, two_soaked_readings(std::hypot(u(270.0), u(30.0)), std::hypot(u(81.0), u(3.0)), 0.0));
  EXPECT_NEAR(separate.standard_uncertainty, 53.001973, 1e-7 * 53);
}

TEST(ThermistorSlope, CommonGainCancelsBetweenEstimates) {
  // The same through shared sources: ln R1 and ln R2 hold one gain, so it drops out of their difference.
  const auto u = [](double half_width) { return standard_uncertainty_of_half_width(Shape::rectangular, half_width); };
  Estimate cold(std::log(30000.0));
  cold.add_term(0, u(0.009));
  cold.add_term(1, u(30.0) / 30000.0);
  Estimate warm(std::log(9000.0));
  warm.add_term(0, u(0.009));
  warm.add_term(2, u(3.0) / 9000.0);
  const double span = 1.0 / 273.25 - 1.0 / 297.95;
  Estimate slope(0.0);
  slope.add_scaled(cold, 1.0 / span);
  slope.add_scaled(warm, -1.0 / span);
  slope.add_term(3, slope.value() * u(0.2) / (273.25 * 273.25) / span);
  slope.add_term(4, slope.value() * u(0.5) / (297.95 * 297.95) / span);
  EXPECT_NEAR(slope.value(), 3968.471669, 1e-6 * 3968);
  EXPECT_NEAR(slope.standard_uncertainty(), 47.143626, 1e-7 * 47);
}

// 11.00 kΩ read with 0.9 % + 3 × 0.01 kΩ; 10 kΩ, B 3977 K at 23.0 ± 1.0 °C (rectangular).
struct SensorAtRoomTemperature {
  double half_width = 0.009 * 11.0 + 3 * 0.01;
  double nominal = 10.0 * std::exp(3977.0 * (1.0 / 296.15 - 1.0 / 298.15));
  double ratio = 11.0 / nominal;
  double u_meter = standard_uncertainty_of_half_width(Shape::rectangular, half_width) / nominal;
  double u_temperature = ratio * 3977.0 / (296.15 * 296.15) / std::numbers::sqrt3;
};

TEST(SensorBudget, MeterAndTemperature) {
  const SensorAtRoomTemperature sensor;
  EXPECT_NEAR(sensor.half_width, 0.129000, 1e-8);
  EXPECT_NEAR(standard_uncertainty_of_half_width(Shape::rectangular, sensor.half_width), 0.074478185, 1e-8);
  const std::vector<PropagationInput> inputs{
      {"reading", 11.0, standard_uncertainty_of_half_width(Shape::rectangular, sensor.half_width)},
      {"temperature", 296.15, 1.0 / std::numbers::sqrt3}};
  const auto model = [](std::span<const double> x) {
    return x[0] / (10.0 * std::exp(3977.0 * (1.0 / x[1] - 1.0 / 298.15)));
  };
  const auto result = propagate(model, inputs);
  EXPECT_NEAR(result.value, 1.005241659, 1e-8);
  EXPECT_NEAR(result.standard_uncertainty, 0.027183214, 1e-8);
  EXPECT_NEAR(result.budget[1].share, 0.937308, 5e-7);
}

TEST(SensorBudget, ShapeMovesTheProbabilityAcrossTheDecision) {
  // Two true rectangles through the curve as it is, on a 4000 × 4000 grid: 0.957791 and 0.440765.
  const SensorAtRoomTemperature sensor;
  const std::vector<ohmwright::InputDistribution> inputs{
      {"reading", 11.0, standard_uncertainty_of_half_width(Shape::rectangular, sensor.half_width), Shape::rectangular},
      {"temperature", 296.15, 1.0 / std::numbers::sqrt3, Shape::rectangular}};
  const auto model = [](std::span<const double> x) {
    return x[0] / (10.0 * std::exp(3977.0 * (1.0 / x[1] - 1.0 / 298.15)));
  };
  const auto drawn = propagate_by_monte_carlo(model, inputs, {.seed = 21, .trials = 4000000});
  EXPECT_NEAR(drawn.probability_between(0.95, 1.05), 0.957791, 3e-4);
  EXPECT_NEAR(drawn.probability_between(0.98, 1.02), 0.440765, 6e-4);  // two standard errors of the draws themselves

  // The closed form at first order, in the logarithm where the curve is nearly straight: the bend leaves 8e-4.
  Estimate logarithm(std::log(sensor.ratio));
  logarithm.add_term(0, sensor.u_meter / sensor.ratio);
  logarithm.add_term(1, sensor.u_temperature / sensor.ratio);
  const std::vector<ohmwright::ErrorSource> shapes{{"meter", "", Shape::rectangular},
                                                   {"temperature", "", Shape::rectangular}};
  EXPECT_NEAR(probability_between(logarithm, shapes, std::log(0.95), std::log(1.05)), 0.957791, 1e-3);
  EXPECT_NEAR(probability_between(logarithm, shapes, std::log(0.98), std::log(1.02)), 0.440765, 1e-3);

  Estimate ratio(sensor.ratio);
  ratio.add_term(0, sensor.u_meter);
  ratio.add_term(1, sensor.u_temperature);
  const std::vector<ohmwright::ErrorSource> normals(2, {"source", "", Shape::normal});
  EXPECT_NEAR(probability_between(ratio, normals, 0.95, 1.05), 0.929107197, 1e-7);
}

TEST(HeaterBudget, ConformanceNearTheLowerLimit) {
  // 450 W at 120 V, +5/−10 % of power: 30.476190…35.555556 Ω; u 0.285290 Ω of the reading of 32.4 Ω less 0.3 Ω leads.
  const double meter = standard_uncertainty_of_half_width(Shape::rectangular, 0.009 * 32.4 + 2 * 0.1);
  const double leads = standard_uncertainty_of_half_width(Shape::rectangular, 0.05);
  const double u = std::hypot(meter, leads);
  EXPECT_NEAR(u, 0.285290, 5e-7);
  const ohmwright::Interval limits{14400.0 / 472.5, 14400.0 / 405.0};
  EXPECT_NEAR(ohmwright::conformance_probability(30.9, u, limits), 0.931299736, 1e-7);
  EXPECT_NEAR(ohmwright::conformance_probability(30.2, u, limits), 0.166495848, 1e-7);
}

}  // namespace
