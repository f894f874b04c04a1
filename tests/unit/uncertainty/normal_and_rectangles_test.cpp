// The closed form against plain quadrature in long double: Φ averaged over the rectangles by nested Gauss–Legendre
// rules.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include <boost/math/quadrature/gauss.hpp>
#include <gtest/gtest.h>

#include <ohmwright/uncertainty/normal_and_rectangles.hpp>

namespace ohmwright {
namespace {

/// P(R ≤ x) by quadrature, for a normal part that is not small against the rectangles.
long double below_by_quadrature(double sigma, const std::vector<double>& half_widths, std::size_t next, long double x) {
  if (next == half_widths.size()) return 0.5L * std::erfc(-x / (static_cast<long double>(sigma) * std::sqrt(2.0L)));
  const long double a = half_widths[next];
  const int panels = std::max(1, static_cast<int>(std::ceil(a / (2.0L * sigma))));
  long double sum = 0.0L;
  for (int i = 0; i < panels; ++i) {
    const long double from = -a + 2.0L * a * i / panels;
    const auto inner = [&](long double r) { return below_by_quadrature(sigma, half_widths, next + 1, x - r); };
    sum += boost::math::quadrature::gauss<long double, 20>::integrate(inner, from, from + 2.0L * a / panels);
  }
  return sum / (2.0L * a);
}

double deviation(double sigma, std::vector<double> half_widths, double x) {
  std::sort(half_widths.begin(), half_widths.end());
  const NormalAndRectangles closed(sigma * sigma, half_widths);
  const double infinity = std::numeric_limits<double>::infinity();
  const auto expected = static_cast<double>(below_by_quadrature(sigma, half_widths, 0, x));
  return std::fabs(closed.probability_between(-infinity, x) - expected);
}

TEST(NormalAndRectangles, ClosedFormAgreesWithQuadrature) {
  for (const double a : {0.151, 0.2, 0.5, 1.0, 3.0}) {
    for (const double b : {0.16, 0.7, 2.0}) {
      for (const double x : {-4.0, -1.3, -0.2, 0.0, 0.9, 2.5}) {
        EXPECT_LT(deviation(1.0, {a}, x), 1e-14);
        EXPECT_LT(deviation(1.0, {a, b}, x), 2e-13) << a << ' ' << b << ' ' << x;
        EXPECT_LT(deviation(1.0, {a, b, 0.152}, x), 2e-12) << a << ' ' << b << ' ' << x;
      }
    }
  }
}

TEST(NormalAndRectangles, NarrowRectanglesFoldWithinTheStatedError) {
  double worst = 0.0;
  for (const double a : {1e-6, 0.001, 0.01, 0.05, 0.1, 0.14, 0.1499}) {
    for (double x = -4.0; x <= 4.0; x += 0.25) {
      worst = std::max(worst, deviation(1.0, {a}, x));
      worst = std::max(worst, deviation(1.0, {a, a}, x));
      worst = std::max(worst, deviation(1.0, {a, a, 0.5}, x));
    }
  }
  EXPECT_LT(worst, 2e-10);
  // Below one per cent nothing is left of it.
  for (double x = -4.0; x <= 4.0; x += 0.25) EXPECT_LT(deviation(1.0, {0.01, 0.01}, x), 1e-14);
}

TEST(NormalAndRectangles, ManyNarrowRectanglesFoldWithinTheStatedError) {
  // Twenty rectangles of 0.149 σ against their characteristic function, P = ½ + 1/π ∫ φ(t)·sin(xt)/t dt.
  const std::vector<double> many(20, 0.149);
  const NormalAndRectangles closed(1.0, many);
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double x : {-3.0, -1.0, -0.3, 0.4, 1.7}) {
    const auto integrand = [x](long double t) {
      return std::exp(-0.5L * t * t) * std::pow(std::sin(0.149L * t) / (0.149L * t), 20.0L) * std::sin(x * t) / t;
    };
    long double sum = 0.0L;
    for (int i = 0; i < 24; ++i)
      sum += boost::math::quadrature::gauss<long double, 20>::integrate(integrand, 0.5L * i, 0.5L * (i + 1));
    const auto expected = static_cast<double>(0.5L + sum / std::numbers::pi_v<long double>);
    EXPECT_NEAR(closed.probability_between(-infinity, x), expected, 2e-10);
  }
}

TEST(NormalAndRectangles, WithoutANormalPartItIsThePolynomialItself) {
  // Irwin–Hall: the sum of n uniform errors on [−½, ½] is within [−½, ½] with probability 1, 3/4, 2/3, 115/192.
  std::vector<double> half_widths;
  for (const double expected : {1.0, 3.0 / 4.0, 2.0 / 3.0, 115.0 / 192.0}) {
    half_widths.push_back(0.5);
    EXPECT_NEAR(NormalAndRectangles(0.0, half_widths).probability_between(-0.5, 0.5), expected, 1e-15);
  }
}

TEST(NormalAndRectangles, SizesFarApartKeepTheirDigits) {
  // A wide and two tiny rectangles, limits at the edge of the wide one: exactly a half of the tail of the small ones.
  for (const double tiny : {1e-3, 1e-6, 1e-9}) {
    const std::vector<double> half_widths{tiny, tiny, 1.0};
    const NormalAndRectangles sum(0.0, half_widths);
    // P(R > 1) = E[max(S, 0)]/2 with S the triangle of half-width 2·tiny: E = tiny/3.
    EXPECT_NEAR(sum.probability_between(1.0, 2.0) / (tiny / 6.0), 1.0, 1e-6);
    EXPECT_NEAR(sum.probability_between(-0.5, 0.5), 0.5, 1e-14);
  }
  // A tiny normal with a wide rectangle likewise: E[max(N, 0)] = σ/√(2π).
  const std::vector<double> wide{1.0};
  const NormalAndRectangles edge(1e-12, wide);
  EXPECT_NEAR(edge.probability_between(1.0, 2.0) / (0.5e-6 / std::sqrt(2.0 * std::numbers::pi)), 1.0, 1e-6);
}

TEST(NormalAndRectangles, DensityIsTheSlopeOfTheProbability) {
  for (const std::vector<double>& half_widths : {std::vector<double>{},
                                                 {0.1},
                                                 {0.5},
                                                 {0.3, 1.0},
                                                 {0.1, 0.5, 1.0},
                                                 {0.2, 0.3, 0.5, 1.0},
                                                 {0.2, 0.3, 0.5, 0.6, 1.0}}) {
    for (const double sigma : {0.25, 1.0}) {
      const NormalAndRectangles sum(sigma * sigma, half_widths);
      for (double x = -2.0; x <= 2.0; x += 0.125) {
        const double slope = sum.probability_between(x - 1e-4, x + 1e-4) / 2e-4;
        EXPECT_NEAR(sum.density(x), slope, 1e-7) << half_widths.size() << ' ' << sigma << ' ' << x;
      }
    }
  }
  const std::vector<double> lone{0.5};
  EXPECT_DOUBLE_EQ(NormalAndRectangles(0.0, lone).density(0.3), 1.0);
  EXPECT_DOUBLE_EQ(NormalAndRectangles(0.0, lone).density(0.6), 0.0);
  EXPECT_DOUBLE_EQ(NormalAndRectangles(0.0, {}).density(0.0), 0.0);
}

TEST(NormalAndRectangles, TailsKeepRelativeDigits) {
  const NormalAndRectangles normal(1.0, {});
  EXPECT_NEAR(normal.probability_between(6.0, 7.0) / (9.865876450376981e-10 - 1.279812543885835e-12), 1.0, 1e-10);
}

TEST(NormalAndRectangles, ProbabilityGrowsWithTheLimits) {
  std::mt19937_64 generator(7);  // fixed: any failure repeats
  const auto uniform = [&] { return static_cast<double>(generator() >> 11U) * 0x1p-53; };
  for (int trial = 0; trial < 2000; ++trial) {
    std::vector<double> half_widths;
    const auto count = generator() % 6;
    for (std::size_t i = 0; i < count; ++i) half_widths.push_back(std::pow(10.0, -4.0 * uniform()));
    std::sort(half_widths.begin(), half_widths.end());
    const double sigma = generator() % 3 == 0 ? 0.0 : std::pow(10.0, -4.0 * uniform());
    const NormalAndRectangles sum(sigma * sigma, half_widths);
    double before = 0.0;
    for (double x = -4.0; x <= 4.0; x += 0.0625) {
      const double now = sum.probability_between(-10.0, x);
      EXPECT_GE(now, before - 1e-11) << trial << ' ' << x;
      EXPECT_LE(now, 1.0);
      before = now;
    }
  }
}

}  // namespace
}  // namespace ohmwright
