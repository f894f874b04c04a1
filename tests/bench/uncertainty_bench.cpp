// What the probability of a verdict costs. Times belong to the machine; the shapes are those of real budgets:
// a meter's gain, its counts and the part's temperature are rectangles, a certificate or a sum of small errors is
// normal, repeats are a Student's t.
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>

namespace {

using ohmwright::ErrorSource;
using ohmwright::Estimate;
using ohmwright::Shape;
using ohmwright::SourceIndex;

struct Budget {
  std::vector<ErrorSource> sources;
  Estimate estimate{1.005};

  Budget& with(Shape shape, double standard_uncertainty) {
    estimate.add_term(static_cast<SourceIndex>(sources.size()), standard_uncertainty);
    sources.push_back({"source", "", shape, shape == Shape::student_t ? 4.0 : 1e300});
    return *this;
  }
};

void measure(benchmark::State& state, const Budget& budget) {
  double lower = 0.95;
  double upper = 1.05;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(lower);
    benchmark::DoNotOptimize(upper);
    benchmark::DoNotOptimize(probability_between(budget.estimate, budget.sources, lower, upper));
  }
}

Budget meter_and_temperature() { return Budget().with(Shape::rectangular, 0.0068).with(Shape::rectangular, 0.0262); }
Budget with_certificate() { return meter_and_temperature().with(Shape::normal, 0.005); }

void two_rectangles(benchmark::State& state) { measure(state, meter_and_temperature()); }
void one_normal(benchmark::State& state) { measure(state, Budget().with(Shape::normal, 0.027)); }
void normal_and_two_rectangles(benchmark::State& state) { measure(state, with_certificate()); }
void wide_normal_and_two_rectangles(benchmark::State& state) {
  measure(state, meter_and_temperature().with(Shape::normal, 0.02));
}
void normal_and_two_narrow_rectangles(benchmark::State& state) {
  measure(state, Budget().with(Shape::normal, 0.02).with(Shape::rectangular, 0.001).with(Shape::rectangular, 0.0015));
}
void four_rectangles(benchmark::State& state) {
  measure(state, meter_and_temperature().with(Shape::rectangular, 0.01).with(Shape::rectangular, 0.015));
}
void normal_and_four_rectangles(benchmark::State& state) {
  measure(state, with_certificate().with(Shape::rectangular, 0.01).with(Shape::rectangular, 0.015));
}
void with_repeats(benchmark::State& state) { measure(state, with_certificate().with(Shape::student_t, 0.01)); }
void with_two_repeats(benchmark::State& state) {
  measure(state, with_certificate().with(Shape::student_t, 0.01).with(Shape::student_t, 0.008));
}
void with_cycle(benchmark::State& state) { measure(state, with_certificate().with(Shape::arcsine, 0.01)); }

/// Estimates that share the given number of sources, each with a rectangle of its own.
void joint(benchmark::State& state, std::size_t shared, bool proportional = false) {
  std::vector<ErrorSource> sources(8, {"source", "", Shape::rectangular});
  sources[0].shape = Shape::normal;
  std::vector<ohmwright::LimitedEstimate> estimates(2, {Estimate(1.0), 0.95, 1.05});
  for (std::size_t i = 0; i < estimates.size(); ++i) {
    for (std::size_t s = 0; s < shared; ++s)
      estimates[i].estimate.add_term(static_cast<SourceIndex>(s),
                                     proportional ? 0.02 : 0.02 - 0.003 * static_cast<double>(i * s));
    estimates[i].estimate.add_term(static_cast<SourceIndex>(6 + i), 0.01);
  }
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(joint_probability(estimates, sources));
}

void joint_independent(benchmark::State& state) { joint(state, 0); }
void joint_one_shared(benchmark::State& state) { joint(state, 1); }
void joint_three_in_proportion(benchmark::State& state) { joint(state, 3, true); }
void joint_two_shared(benchmark::State& state) { joint(state, 2); }
void joint_three_shared(benchmark::State& state) { joint(state, 3); }
void joint_drawn(benchmark::State& state) { joint(state, 4); }

}  // namespace

BENCHMARK(two_rectangles);
BENCHMARK(one_normal);
BENCHMARK(normal_and_two_rectangles);
BENCHMARK(wide_normal_and_two_rectangles);
BENCHMARK(normal_and_two_narrow_rectangles);
BENCHMARK(four_rectangles);
BENCHMARK(normal_and_four_rectangles);
BENCHMARK(with_repeats);
BENCHMARK(with_two_repeats);
BENCHMARK(with_cycle);
BENCHMARK(joint_independent);
BENCHMARK(joint_one_shared);
BENCHMARK(joint_three_in_proportion);
BENCHMARK(joint_two_shared);
BENCHMARK(joint_three_shared);
BENCHMARK(joint_drawn);
BENCHMARK_MAIN();
