// JCGM 100:2008 (GUM), annex H: the worked examples end to end, to the printed digits and, unrounded, to the digits
// that two independent programs gave (Python/numpy and a C program on GSL; H.1 also mpmath at 30 digits). The text says
// which rounded or unrounded inputs each expected figure belongs to: they decide its fourth digit.
#include <array>
#include <cmath>
#include <numeric>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/least_squares.hpp>
#include <ohmwright/uncertainty/propagation.hpp>
#include <ohmwright/uncertainty/repeats.hpp>

namespace {

using ohmwright::Propagation;
using ohmwright::PropagationInput;
using ohmwright::PropagationOptions;
using ohmwright::Shape;
using ohmwright::standard_uncertainty_of_half_width;

constexpr double known = std::numeric_limits<double>::infinity();

// H.1: l = l_S + d − l_S·(δα·θ + α_S·δθ), in nm; inputs l_S, three parts of d, δα, θ̄, Δ, α_S, δθ.
double end_gauge(std::span<const double> x) {
  return x[0] + x[1] + x[2] + x[3] - x[0] * (x[4] * (x[5] + x[6]) + x[7] * x[8]);
}

std::vector<PropagationInput> end_gauge_inputs(double standard_length) {
  return {{"l_S", standard_length, 25.0, 18.0},
          {"d, repeats", 215.0, 5.8, 24.0},
          {"d, random", 0.0, 3.9, 5.0},
          {"d, systematic", 0.0, 6.7, 8.0},
          {"delta alpha", 0.0, standard_uncertainty_of_half_width(Shape::rectangular, 1e-6), 50.0},
          {"theta mean", -0.1, 0.2, known},
          {"theta cycle", 0.0, standard_uncertainty_of_half_width(Shape::arcsine, 0.5), known},
          {"alpha_S", 11.5e-6, standard_uncertainty_of_half_width(Shape::rectangular, 2e-6), known},
          {"delta theta", 0.0, standard_uncertainty_of_half_width(Shape::rectangular, 0.05), 2.0}};
}

TEST(GumH1EndGauge, ExpandedUncertaintyOfThePrintedBudget) {
  const Propagation result = propagate(end_gauge, end_gauge_inputs(50000623.0));
  EXPECT_NEAR(result.value, 50000838.0, 0.5);           // printed l
  EXPECT_NEAR(result.standard_uncertainty, 32.0, 0.5);  // printed u_c
  EXPECT_NEAR(result.standard_uncertainty, 31.663879, 1e-6 * 31.663879);
  EXPECT_NEAR(result.degrees_of_freedom, 16.751856, 1e-6 * 16.751856);
  EXPECT_EQ(std::floor(result.degrees_of_freedom), 16.0);  // printed ν_eff, truncated as G.4.1 says
  const double factor = ohmwright::coverage_factor(0.99, 16.0);
  EXPECT_NEAR(factor, 2.92, 0.005);                              // Table G.2
  EXPECT_NEAR(factor * result.standard_uncertainty, 93.0, 0.6);  // printed U99 93 from rounded u_c 32
  EXPECT_NEAR(factor * result.standard_uncertainty, 92.4833, 1e-6 * 92.4833);
}

TEST(GumH1EndGauge, FromThePrintedRoundedInputs) {
  // u(d) 9.7 (ν 25.6), u(δα) 0.58e-6, u(δθ) 0.029, all as printed: quoted by an open metrology library as 31.71, 16.66.
  const std::vector<PropagationInput> inputs{
      {"l_S", 50000623.0, 25.0, 18.0},     {"d", 215.0, 9.7, 25.6},
      {"delta alpha", 0.0, 0.58e-6, 50.0}, {"theta", -0.1, 0.406201920232, known},
      {"alpha_S", 11.5e-6, 1.2e-6, known}, {"delta theta", 0.0, 0.029, 2.0}};
  const auto model = [](std::span<const double> x) { return x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5]); };
  const Propagation result = propagate(model, inputs);
  EXPECT_NEAR(result.standard_uncertainty, 31.710610, 1e-7 * 31.7);
  EXPECT_NEAR(result.degrees_of_freedom, 16.656063, 1e-7 * 16.7);
}

TEST(GumH1EndGauge, WithTheLengthAtExactlyFiftyMillimetres) {
  // The digits that another open metrology library (MSLNZ/GTC, test of a real uncertain number) asserts.
  const double length = 5e7;
  const std::vector<PropagationInput> inputs = end_gauge_inputs(length);
  const double alpha = 11.5e-6;
  const std::array<double, 9> sensitivities{1.0, 1.0, 1.0, 1.0, -length * -0.1, 0.0, 0.0, 0.0, -length * alpha};
  const Propagation result = propagate(end_gauge, inputs, {{}, sensitivities, false});
  EXPECT_NEAR(result.standard_uncertainty, 31.6637674111, 1e-10 * 31.7);
  EXPECT_NEAR(result.degrees_of_freedom, 16.7521475092, 1e-10 * 16.8);
  EXPECT_NEAR(std::hypot(inputs[5].standard_uncertainty, inputs[6].standard_uncertainty), 0.406201920232, 1e-10);
  EXPECT_NEAR(std::fabs(result.budget[4].contribution), 2.88675134595, 1e-10 * 2.9);
  // Taken numerically: rounding of a 50 mm length against nanometres of effect leaves 1e-8.
  EXPECT_NEAR(propagate(end_gauge, inputs).standard_uncertainty, 31.6637674111, 1e-8 * 31.7);
}

TEST(GumH1EndGauge, SecondOrderTermsOfH17) {
  const Propagation result = propagate(end_gauge, end_gauge_inputs(50000623.0), {{}, {}, true});
  double expansion = 0.0;    // δα with θ̄ and with the cycle
  double temperature = 0.0;  // α_S with δθ
  for (const auto& term : result.second_order) {
    if (term.first == 4 && (term.second == 5 || term.second == 6)) expansion += term.variance;
    if (term.first == 7 && term.second == 8) temperature += term.variance;
  }
  EXPECT_NEAR(std::sqrt(expansion), 11.726186, 1e-6 * 11.7);
  EXPECT_NEAR(std::sqrt(temperature), 1.666687, 1e-6 * 1.7);
  EXPECT_NEAR(result.standard_uncertainty, 34.0, 0.5);  // printed
  EXPECT_NEAR(result.standard_uncertainty, 33.806545, 1e-6 * 33.8);
  // ν where the first term shares the 50 of δα (one part with it) and the second is known: an open library prints 21.6.
  std::vector<ohmwright::UncertaintyPart> parts;
  const auto inputs = end_gauge_inputs(50000623.0);
  for (std::size_t i = 0; i < inputs.size(); ++i)
    parts.push_back({result.budget[i].contribution, inputs[i].degrees_of_freedom});
  parts[4].standard_uncertainty = std::hypot(parts[4].standard_uncertainty, std::sqrt(expansion));
  parts.push_back({std::sqrt(temperature), known});
  EXPECT_NEAR(ohmwright::welch_satterthwaite(parts), 21.614831, 1e-6 * 21.6);
}

TEST(GumH1EndGauge, ScatterOfTheComparison) {
  const std::vector<ohmwright::UncertaintyPart> parts{{5.8, 24.0}, {3.9, 5.0}, {6.7, 8.0}};
  EXPECT_NEAR(ohmwright::welch_satterthwaite(parts), 25.447251, 1e-6 * 25.4);
  // From the guide's own components (H.1.3.2): 0.01 µm/t95(5) and 0.02 µm/3, and 13 nm/√5 for the repeats.
  const std::vector<ohmwright::UncertaintyPart> own{
      {13.0 / std::sqrt(5.0), 24.0}, {10.0 / ohmwright::coverage_factor(0.95, 5.0), 5.0}, {20.0 / 3.0, 8.0}};
  EXPECT_NEAR(ohmwright::welch_satterthwaite(own), 25.6, 0.05);  // printed
  EXPECT_NEAR(ohmwright::welch_satterthwaite(own), 25.621306, 1e-6 * 25.6);
}

// H.2: five simultaneous readings of voltage [V], current [A] and phase [rad].
constexpr std::array<double, 5> voltage{5.007, 4.994, 5.005, 4.990, 4.999};
constexpr std::array<double, 5> current{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3};
constexpr std::array<double, 5> phase{1.0456, 1.0438, 1.0468, 1.0428, 1.0433};

void impedance(std::span<const double> x, std::span<double> y) {
  y[2] = x[0] / x[1];
  y[0] = y[2] * std::cos(x[2]);
  y[1] = y[2] * std::sin(x[2]);
}

TEST(GumH2Impedance, FirstWayMeansThenCorrelations) {
  const std::array<std::span<const double>, 3> readings{voltage, current, phase};
  std::vector<PropagationInput> inputs;
  std::vector<double> correlation;
  for (const auto& first : readings) {
    const auto mean = ohmwright::mean_of_repeats(first);
    inputs.push_back({"input", mean.mean, mean.standard_uncertainty, mean.degrees_of_freedom});
    for (const auto& second : readings)
      correlation.push_back(first.data() == second.data() ? 1.0 : ohmwright::correlation_of_means(first, second));
  }
  EXPECT_NEAR(correlation[1], -0.36, 0.006);  // printed −0.36, 0.86, −0.65
  EXPECT_NEAR(correlation[2], 0.86, 0.006);
  EXPECT_NEAR(correlation[5], -0.65, 0.006);
  const auto result = ohmwright::propagate_jointly(impedance, 3, inputs, correlation);
  EXPECT_NEAR(result.values[0], 127.732170, 1e-7 * 127.7);               // printed 127.732
  EXPECT_NEAR(result.values[1], 219.846512, 1e-7 * 219.8);               // printed 219.847
  EXPECT_NEAR(result.values[2], 254.259702, 1e-7 * 254.3);               // printed 254.260
  EXPECT_NEAR(result.standard_uncertainty(0), 0.071071, 1e-5 * 0.0711);  // printed 0.071
  EXPECT_NEAR(result.standard_uncertainty(1), 0.295582, 1e-5 * 0.296);
  EXPECT_NEAR(result.standard_uncertainty(2), 0.236336, 1e-5 * 0.236);  // printed 0.236
  EXPECT_NEAR(result.correlation(0, 1), -0.588430, 1e-5);               // printed −0.588, −0.485, 0.993
  EXPECT_NEAR(result.correlation(0, 2), -0.485259, 1e-5);
  EXPECT_NEAR(result.correlation(1, 2), 0.992512, 1e-5);
}

TEST(GumH2Impedance, SecondWayEachSetThenTheMean) {
  std::array<std::array<double, 5>, 3> sets{};
  for (std::size_t i = 0; i < 5; ++i) {
    std::array<double, 3> y{};
    impedance(std::array{voltage[i], current[i], phase[i]}, y);
    for (std::size_t k = 0; k < 3; ++k) sets[k][i] = y[k];
  }
  constexpr std::array<double, 3> value{127.731630, 219.846895, 254.260050};  // printed 127.732, 219.847, 254.260
  constexpr std::array<double, 3> uncertainty{0.071274, 0.295489, 0.236248};  // printed 0.071, 0.295, 0.236
  for (std::size_t k = 0; k < 3; ++k) {
    const auto mean = ohmwright::mean_of_repeats(sets[k]);
    EXPECT_NEAR(mean.mean, value[k], 1e-6);
    EXPECT_NEAR(mean.standard_uncertainty, uncertainty[k], 1e-6);
  }
  EXPECT_NEAR(ohmwright::correlation_of_means(sets[0], sets[1]), -0.588277, 1e-6);
  EXPECT_NEAR(ohmwright::correlation_of_means(sets[0], sets[2]), -0.485065, 1e-6);
  EXPECT_NEAR(ohmwright::correlation_of_means(sets[1], sets[2]), 0.992508, 1e-6);
}

TEST(GumH3Thermometer, CalibrationLineAndItsPredictionAtThirtyDegrees) {
  constexpr std::array<double, 11> reading{21.521, 22.012, 22.512, 23.003, 23.507, 23.999,
                                           24.513, 25.002, 25.503, 26.010, 26.511};  // °C
  constexpr std::array<double, 11> correction{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165,
                                              -0.156, -0.157, -0.159, -0.161, -0.160};  // K
  std::vector<double> design;
  for (const double t : reading) {
    design.push_back(1.0);
    design.push_back(t - 20.0);
  }
  const ohmwright::Fit fit = ohmwright::fit_linear(design, 2, correction);
  EXPECT_NEAR(fit.parameters[0], -0.171203790, 1e-6 * 0.17);          // printed −0.1712
  EXPECT_NEAR(fit.parameters[1], 0.002182698, 1e-6 * 0.0022);         // printed 0.00218
  EXPECT_NEAR(fit.standard_uncertainty(0), 0.002877598, 3e-9);        // printed 0.0029
  EXPECT_NEAR(fit.standard_uncertainty(1), 0.000667939, 1e-9);        // printed 0.00067
  EXPECT_NEAR(fit.correlation(0, 1), -0.930430, 1e-6);                // printed −0.930
  EXPECT_NEAR(fit.residual_standard_deviation(), 0.003497564, 4e-9);  // printed 0.0035
  EXPECT_NEAR(fit.weighted_sum_of_squares, 1.10096583e-4, 1e-12);
  EXPECT_EQ(fit.degrees_of_freedom, 9U);
  const std::array<double, 2> at_thirty{1.0, 10.0};
  EXPECT_NEAR(fit.parameters[0] + 10.0 * fit.parameters[1], -0.149376813, 1e-6 * 0.15);  // printed −0.1494
  const double u = std::sqrt(fit.variance_of_combination(at_thirty));
  EXPECT_NEAR(u, 0.004138596, 1e-6 * 0.0041);  // printed 0.0041
  // The trap: without the covariance it would be 0.007272880.
  const double without = std::hypot(fit.standard_uncertainty(0), 10.0 * fit.standard_uncertainty(1));
  EXPECT_NEAR(without, 0.007272880, 1e-6 * 0.0073);
  EXPECT_GT(without - u, 0.003);
}

}  // namespace
