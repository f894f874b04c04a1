// What one judgement in process costs: the resistance rule alone, and the whole part with all its rules.

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "curves/beta_curve.hpp"
#include "rules/resistance_at_temperature.hpp"
#include "rules/scene.hpp"
#include "sensor_fixture.hpp"
#include "sensor_part.hpp"

namespace {

using namespace ohmwright;
using namespace ohmwright::defrost_sensor;
using namespace ohmwright::defrost_sensor::testing_support;

std::vector<Typed> one_reading() { return {{.value = "11.00 kohm", .at = "23 degC +- 1 K"}}; }
std::vector<Typed> two_readings() {
  return {{.value = "33.90 kohm", .at = "0 degC +- 0.2 K"}, {.value = "10.95 kohm", .at = "23 degC +- 1 K"}};
}

/// Turns prepared readings into deviations, fuses them, and lets the resistance rule speak.
void resistance_rule(benchmark::State& state) {
  const SensorRatings ratings = plain_ratings();
  const Evidence evidence = evidence_of(one_reading());
  const JudgeSettings settings;
  Findings findings;
  for (auto _ : state) {
    findings.clear();
    const Scene scene(&ratings, evidence, settings, findings);
    judge_resistance_at_temperature(scene);
    benchmark::DoNotOptimize(findings.findings().data());
  }
}
BENCHMARK(resistance_rule);

void whole_part(benchmark::State& state, const std::vector<Typed>& readings) {
  const SensorPart part(plain_ratings());
  const Evidence evidence = evidence_of(readings);
  const JudgeSettings settings;
  Findings findings;
  for (auto _ : state) {
    findings.clear();
    part.judge(evidence, settings, findings);
    benchmark::DoNotOptimize(findings.findings().data());
  }
}
BENCHMARK_CAPTURE(whole_part, one_reading, one_reading());
BENCHMARK_CAPTURE(whole_part, two_readings, two_readings());

void evidence_of_one_reading(benchmark::State& state) {
  const std::vector<Typed> typed = one_reading();
  for (auto _ : state) benchmark::DoNotOptimize(evidence_of(typed));
}
BENCHMARK(evidence_of_one_reading);

}  // namespace
