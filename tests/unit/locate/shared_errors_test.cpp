#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/shared_errors.hpp>

// What readings tell of the errors they share, against the whole Gaussian posterior at once, solved by hand: the error
// sources x ~ N(0, 1), readings y = mean + A·x + noise, posterior covariance (1 + Aᵀ·A/σ²)⁻¹ and mean of that times
// Aᵀ(y - mean)/σ². Source: C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning (2006), eq. 2.8
// (from memory).

namespace ohmwright::locate {
namespace {

PredictedOutcome outcome(double mean, double first, double second, double own) {
  PredictedOutcome made;
  made.mean = mean;
  made.uncertainty = std::sqrt(first * first + second * second + own * own);
  if (first != 0.0) made.shared.push_back({1, first});
  if (second != 0.0) made.shared.push_back({2, second});
  return made;
}

TEST(SharedErrors, AreThePosteriorOfAllReadingsAtOnce) {
  constexpr double sigma = 0.03;
  const std::array<std::array<double, 2>, 3> shares{{{0.05, 0.02}, {0.04, -0.03}, {0.0, 0.06}}};
  const std::array<double, 3> off{0.07, 0.01, -0.02};
  SharedErrors errors;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    SeenReading seen;
    seen.at = 4.0 + off[i];
    errors.learn(outcome(4.0, shares[i][0], shares[i][1], sigma), seen, 0.01);
  }
  double a = 1.0;
  double b = 0.0;
  double d = 1.0;
  double e = 0.0;
  double f = 0.0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    a += shares[i][0] * shares[i][0] / (sigma * sigma);
    b += shares[i][0] * shares[i][1] / (sigma * sigma);
    d += shares[i][1] * shares[i][1] / (sigma * sigma);
    e += shares[i][0] * off[i] / (sigma * sigma);
    f += shares[i][1] * off[i] / (sigma * sigma);
  }
  const double determinant = a * d - b * b;
  const double first = (d * e - b * f) / determinant;
  const double second = (a * f - b * e) / determinant;
  constexpr double g = 0.05;
  constexpr double h = 0.04;
  const SharedErrors::Narrowed narrowed = errors.narrowed(outcome(5.0, g, h, sigma));
  EXPECT_NEAR(narrowed.mean, 5.0 + g * first + h * second, 1e-12);
  const double variance = sigma * sigma + (g * g * d - 2.0 * g * h * b + h * h * a) / determinant;
  EXPECT_NEAR(narrowed.uncertainty, std::sqrt(variance), 1e-12);
}

}  // namespace
}  // namespace ohmwright::locate
