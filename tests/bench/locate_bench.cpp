// What a technician waits for: the whole answer of a search, from the file to the first step and after each reading.
// The appliance is a ladder of `parts` parts (a contact or a lead in series, a load across, all with faults to the
// frame), with every single and double fault, 60 test points and 4 set-ups, live steps among them. Times belong to the
// machine; circuit_bench has single solves beside ngspice.
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <ohmwright/locate/search.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

namespace {

using namespace ohmwright;          // NOLINT: a program, not a header
using namespace ohmwright::locate;  // NOLINT: likewise

constexpr std::size_t test_point_count = 60;

class Ladder {
 public:
  explicit Ladder(std::size_t parts) {
    appliance_.id = appliance_.title = "ladder";
    appliance_.supply.voltage = parse_stated_value("120 V ± 6 V", Dimension::voltage);
    appliance_.supply.frequency = parse_stated_value("60 Hz", Dimension::frequency);
    appliance_.nodes = {"N", "PE", "L"};
    appliance_.supply.neutral = 0;
    appliance_.supply.earth = 1;
    appliance_.supply.live = 2;
    appliance_.zones = {{"coil", "coil", parse_stated_value("-18 degC ± 2 K", Dimension::temperature)}};
    appliance_.covers = {{"box", "box", 2.0, {}, {}}, {"panel", "panel", 6.0, {}, {}}};
    std::size_t rail = 2;
    for (std::size_t part = 0; part < parts; ++part) rail = add_part(part, rail);
    add_test_points();
    add_set_ups();
  }

  const Appliance& appliance() const { return appliance_; }

 private:
  std::size_t add_part(std::size_t index, std::size_t rail) {
    const bool is_load = index % 3 == 2;
    const std::size_t next = is_load ? 0 : appliance_.nodes.size();
    if (!is_load) appliance_.nodes.push_back("n" + std::to_string(next));
    PlacedPart part;
    part.id = part.title = "part-" + std::to_string(index);
    if (index % 3 == 0) {
      part.kind = &testing::contact_kind();
      part.part = std::make_shared<testing::ContactPart>(index % 6 == 0 ? not_found : std::uint16_t{1});
      part.states = {{0, testing::position_defrost}};
    } else {
      part.kind = &testing::resistor_kind();
      const double ohm = is_load ? 20.0 * static_cast<double>(index + 1) : 0.05;
      part.part = std::make_shared<testing::ResistorPart>(ohm, is_load ? 0.1 : 0.02);
    }
    part.nodes = {rail, next};
    if (index % 3 != 0) part.nodes.emplace_back(1);
    part.zone = 0;
    appliance_.parts.push_back(std::move(part));
    return is_load ? rail : next;
  }

  /// Two of three are ohms, every other of those with a lead lifted; then volts, and the clamp.
  void add_test_points() {
    const std::size_t parts = appliance_.parts.size();
    for (std::size_t i = 0; i < test_point_count; ++i) {
      TestPoint point;
      point.id = point.title = std::to_string(i);
      const std::size_t part = i * 7 % parts;
      point.probe = i % 3 < 2 ? Probe::ohms : (i % 6 == 5 ? Probe::amperes : Probe::volts);
      if (point.probe == Probe::amperes) {
        point.from.terminal = PartTerminal{part, 0};
      } else if (i % 3 == 1) {
        point.from.terminal = PartTerminal{part, 0};
        point.to.terminal = PartTerminal{part, 1};
        point.lifted = {{part, 0}};
      } else {
        point.from.node = 2 + i % (appliance_.nodes.size() - 2);
        point.to.node = i % 5 == 0 ? 1 : 0;
      }
      point.minutes = 1.0 + static_cast<double>(i % 3);
      point.behind = {i % 2};
      appliance_.test_points.push_back(std::move(point));
    }
  }

  void add_set_ups() {
    SetUp warmed;
    warmed.id = warmed.title = "warmed";
    warmed.minutes = 10.0;
    warmed.temperatures = {{0, parse_stated_value("22 degC ± 1 K", Dimension::temperature)}};
    SetUp turned;
    turned.id = turned.title = "turned";
    turned.minutes = 2.0;
    for (std::size_t part = 0; part < appliance_.parts.size(); part += 3)
      turned.states.push_back({part, {0, testing::position_run}});
    SetUp both = warmed;
    both.id = both.title = "both";
    both.minutes = 12.0;
    both.states = turned.states;
    appliance_.set_ups = {warmed, turned, both};
  }

  Appliance appliance_;
};

SearchSettings with_live_steps() {
  SearchSettings settings;
  settings.steps.allow_live = true;
  return settings;
}

/// A reading that the likeliest instance gives, as somebody would write it down.
Observed shown(Search& search, const Measurement& measurement) {
  const Probe probe = search.reasoner().prober().appliance().test_points[measurement.test_point].probe;
  const std::size_t instance = search.reasoner().likeliest(1).front().instance;
  const PredictedOutcome& outcome = search.reasoner().predicted(instance, measurement).front();
  if (probe == Probe::ohms && outcome.form == PredictedOutcome::Form::over_range) return OverRange{};
  const Dimension dimension = locate::dimension_of(probe);
  return StatedValue{AnyQuantity(dimension, scale_of(probe).linear_below * std::sinh(outcome.mean)), std::nullopt,
                     Unit::si(dimension)};
}

/// Everything made anew: from an appliance in memory to the first step.
void first_answer(benchmark::State& state) {
  const Ladder ladder(static_cast<std::size_t>(state.range(0)));
  const Meter meter = testing::hand_meter();
  for ([[maybe_unused]] auto _ : state) {
    Search search(ladder.appliance(), meter, site_as_found(ladder.appliance()), with_live_steps());
    search.think();
    benchmark::DoNotOptimize(search.steps().data());
  }
}

/// The answer after the n-th reading, each taken where the search asked for it.
void answer_after(benchmark::State& state, std::size_t readings) {
  const Ladder ladder(static_cast<std::size_t>(state.range(0)));
  const Meter meter = testing::hand_meter();
  for ([[maybe_unused]] auto _ : state) {
    state.PauseTiming();
    Search search(ladder.appliance(), meter, site_as_found(ladder.appliance()), with_live_steps());
    search.think();
    for (std::size_t i = 0; i < readings && !search.steps().empty(); ++i) {
      const Measurement next = search.steps().front().measurement;
      search.add({next, shown(search, next), {}});
      if (i + 1 < readings) search.think();
    }
    state.counters["instances"] = static_cast<double>(search.reasoner().likeliest(static_cast<std::size_t>(-1)).size());
    state.counters["candidates"] = static_cast<double>(search.reasoner().faults().candidates().size());
    state.ResumeTiming();
    search.think();
    benchmark::DoNotOptimize(search.steps().data());
  }
}
void answer_after_one(benchmark::State& state) { answer_after(state, 1); }
void answer_after_four(benchmark::State& state) { answer_after(state, 4); }

}  // namespace

BENCHMARK(first_answer)->Arg(5)->Arg(10)->Arg(15)->Arg(20)->Arg(30)->Arg(40)->Arg(48)->Unit(benchmark::kMillisecond);
BENCHMARK(answer_after_one)
    ->Arg(5)
    ->Arg(10)
    ->Arg(15)
    ->Arg(20)
    ->Arg(30)
    ->Arg(40)
    ->Arg(48)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(answer_after_four)->Arg(5)->Arg(10)->Arg(15)->Arg(20)->Arg(40)->Unit(benchmark::kMillisecond);
BENCHMARK_MAIN();
