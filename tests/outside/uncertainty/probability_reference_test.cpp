// Probabilities of sums of errors against mpmath 1.2.1 at 25 digits. That computation shares nothing with the closed
// form: it inverts the characteristic function, P = 1/π ∫ φ(t)·(sin(Ut) − sin(Lt))/t dt, with φ the product of
// exp(−σ²t²/2), sin(at)/(at), K_{ν/2} (Student's t) and J_0 (cycle) (Gil-Pelaez, Biometrika 38 (1951) 481).
#include <limits>
#include <ostream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>

namespace {

using ohmwright::ErrorSource;
using ohmwright::Estimate;
using ohmwright::Shape;

struct Part {
  Shape shape = Shape::normal;
  double size = 0.0;  // standard uncertainty of a normal, scale of a Student's t, half-width of the others
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

struct Case {
  std::string what;
  std::vector<Part> parts;
  double lower = 0.0;
  double upper = 0.0;
  double expected = 0.0;
  double tolerance = 0.0;
};

void PrintTo(const Case& given, std::ostream* out) { *out << given.what; }

Part normal(double u) { return {Shape::normal, u}; }
Part rectangle(double a) { return {Shape::rectangular, a}; }
Part triangle(double a) { return {Shape::triangular, a}; }
Part cycle(double a) { return {Shape::arcsine, a}; }
Part student(double u, double nu) { return {Shape::student_t, u, nu}; }

class SumOfErrors : public testing::TestWithParam<Case> {};

TEST_P(SumOfErrors, AgreesWithTheInvertedCharacteristicFunction) {
  Estimate estimate(20.0);
  std::vector<ErrorSource> sources;
  for (const Part& part : GetParam().parts) {
    const bool by_half_width = part.shape != Shape::normal && part.shape != Shape::student_t;
    const double u = by_half_width ? ohmwright::standard_uncertainty_of_half_width(part.shape, part.size) : part.size;
    estimate.add_term(static_cast<ohmwright::SourceIndex>(sources.size()), u);
    sources.push_back({"source", "", part.shape, part.degrees_of_freedom});
  }
  EXPECT_NEAR(probability_between(estimate, sources, 20.0 + GetParam().lower, 20.0 + GetParam().upper),
              GetParam().expected, GetParam().tolerance);
}

// Closed form: 1e-12 (rounding); with folded rectangles 2e-10 (stated in the header).
constexpr double closed = 1e-12;
constexpr double folded = 2e-10;
INSTANTIATE_TEST_SUITE_P(
    NormalAndRectangles, SumOfErrors,
    testing::Values(
        Case{"one of each", {normal(1), rectangle(1)}, -1, 1.5, 0.70687800099661, closed},
        Case{"two rectangles", {normal(0.3), rectangle(1), rectangle(0.5)}, -1.2, 1.2, 0.913483437215735, closed},
        Case{"three rectangles",
             {normal(0.3), rectangle(1), rectangle(0.5), rectangle(0.25)},
             -0.4,
             1.1,
             0.625518021021029,
             closed},
        Case{"four narrow rectangles",
             {normal(1), rectangle(0.2), rectangle(0.2), rectangle(0.2), rectangle(0.2)},
             -1.7,
             1.3,
             0.848530162327396,
             closed},
        Case{"four mixed rectangles",
             {normal(1), rectangle(0.16), rectangle(0.3), rectangle(2), rectangle(1)},
             -1.7,
             2.3,
             0.758077180409252,
             closed},
        Case{"one folded", {normal(1), rectangle(0.149)}, -1.7, 1.3, 0.857219409644899, folded},
        Case{"six folded, one not",
             {normal(1), rectangle(0.149), rectangle(0.149), rectangle(0.149), rectangle(0.149), rectangle(0.149),
              rectangle(0.149), rectangle(1)},
             -1.7,
             1.3,
             0.790349946109494,
             folded},
        Case{"hardly any normal",
             {normal(0.01), rectangle(1), rectangle(0.02)},
             -0.99,
             1.005,
             0.991780993469642,
             closed},
        Case{"far tail", {normal(1), rectangle(1)}, 5, 9, 3.57255103767528e-6, 1e-15},
        Case{"a triangle", {normal(0.2), triangle(1)}, -0.5, 0.8, 0.816578878617877, closed}));

// More than four wide rectangles: the smallest are folded, stated error at most 8e-6.
INSTANTIATE_TEST_SUITE_P(ManyRectangles, SumOfErrors,
                         testing::Values(Case{"five equal",
                                              {normal(0.1), rectangle(1), rectangle(1), rectangle(1), rectangle(1),
                                               rectangle(1)},
                                              -2,
                                              1.5,
                                              0.80988515625,
                                              8e-6},
                                         Case{"six mixed",
                                              {normal(0.1), rectangle(1), rectangle(1), rectangle(0.5), rectangle(0.4),
                                               rectangle(0.3), rectangle(0.2)},
                                              -2,
                                              1.5,
                                              0.934218998354437,
                                              1e-6}));

// With a Student's t: one sum of equal steps each, error about 1e-11.
constexpr double stepped = 2e-10;
INSTANTIATE_TEST_SUITE_P(
    StudentT, SumOfErrors,
    testing::Values(
        Case{"with a normal", {student(1, 4), normal(1)}, -1, 2, 0.636699749190295, stepped},
        Case{"with a rectangle", {student(1, 4), rectangle(1)}, -1, 2, 0.707632659074632, stepped},
        Case{"with two rectangles",
             {student(0.3, 2), rectangle(1), rectangle(0.5)},
             -1.2,
             1.2,
             0.851383156182653,
             stepped},
        Case{"one degree of freedom", {student(0.2, 1), normal(1)}, -1.5, 2.5, 0.851732505003375, stepped},
        Case{"many degrees of freedom", {student(1, 30), normal(0.5)}, -1.5, 2, 0.864837528659107, stepped},
        Case{"two of them", {student(1, 9), student(0.5, 4), normal(0.5)}, -1.5, 2, 0.790412722147629, stepped},
        Case{"three of them",
             {student(1, 3), student(1, 4), student(0.5, 5), rectangle(1)},
             -2,
             3,
             0.76091862540739,
             stepped}));

// With a cycle: adaptive quadrature, 1e-9.
INSTANTIATE_TEST_SUITE_P(
    Cycle, SumOfErrors,
    testing::Values(
        Case{"with a normal", {cycle(1), normal(0.2)}, -0.9, 1.1, 0.820751271601712, 1e-9},
        Case{"with normal and rectangle", {cycle(1), normal(0.2), rectangle(0.5)}, -0.9, 1.1, 0.76296810528224, 1e-9},
        Case{"two cycles", {cycle(1), cycle(0.5), normal(0.1)}, -1, 1.3, 0.826121758986329, 1e-9},
        Case{"with a Student's t", {cycle(1), student(0.5, 4)}, -1, 1.3, 0.760824822572516, 1e-9},
        // Without a normal part: mpmath, direct integral of the arcsine distribution over the rectangle.
        Case{"with a rectangle alone", {cycle(1), rectangle(0.3)}, -0.9, 1.1, 0.825554520470866, 1e-9}));

// mpmath 1.2.1, direct integral over the shared error of the product of the conditional probabilities.
TEST(JointProbabilityReference, OneSharedErrorOfEitherShape) {
  using ohmwright::LimitedEstimate;
  for (const auto& [shape, expected] :
       {std::pair{Shape::normal, 0.797952749026213}, std::pair{Shape::rectangular, 0.770920754998038}}) {
    const std::vector<ErrorSource> sources{{"shared", "", shape},
                                           {"scatter", "first", Shape::normal},
                                           {"scatter", "second", Shape::normal},
                                           {"counts", "second", Shape::rectangular}};
    LimitedEstimate first{Estimate(0.0), -1.5, 2.0};
    first.estimate.add_term(0, 1.0);
    first.estimate.add_term(1, 0.3);
    LimitedEstimate second{Estimate(0.0), -1.0, 1.2};
    second.estimate.add_term(0, -0.7);
    second.estimate.add_term(2, 0.2);
    second.estimate.add_term(3, ohmwright::standard_uncertainty_of_half_width(Shape::rectangular, 0.5));
    const auto joint = joint_probability(std::vector{first, second}, sources);
    EXPECT_NEAR(joint.probability, expected, 1e-9);
    EXPECT_EQ(joint.method, ohmwright::JointMethod::quadrature);
  }
}

}  // namespace
