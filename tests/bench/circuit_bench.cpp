// What predicting a reading costs: a meter prepared for a set-up, a variant with one or two changes of it, a reading of
// that, beside a network solved anew for every reading; and ngspice solving the same networks in the same run. Times
// belong to the machine, ratios count. The networks are ladders of `parts` parts: a contact or a lead in series, a load
// across, leakage to the frame.
#include <chrono>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/report/run_program.hpp>

namespace {

using namespace ohmwright::circuit;  // NOLINT: a program, not a header

constexpr std::size_t pair_count = 60;
constexpr auto parts_of_a_whole_prediction = 15;

BranchModel ohms(double value) { return resistance(ohmwright::Resistance::from_value(value)); }

struct Bench {
  Network network;
  std::vector<NodePair> pairs;
  std::vector<std::vector<Change>> single_faults;  ///< five a part: open, closed, 20 % less, 20 % more, 20 ohm more

  explicit Bench(std::size_t parts, bool live = false) {
    const NodeIndex neutral = network.add_node();
    const NodeIndex frame = network.add_node();
    NodeIndex rail = network.add_node();
    if (live) network.add_branch(rail, neutral, voltage_source(ohmwright::Voltage::from_value(120.0)));
    std::vector<NodeIndex> nodes{neutral, frame, rail};
    for (std::size_t part = 0; part < parts; ++part) {
      const double value = part % 3 == 2 ? 20.0 * static_cast<double>(part + 1) : 0.05;
      const bool load = part % 3 == 2;
      const NodeIndex next = load ? neutral : network.add_node();
      const BranchIndex branch = network.add_branch(rail, next, ohms(value));
      if (load) network.add_branch(rail, frame, ohms(50e6));
      if (!load) nodes.push_back(rail = next);
      for (const BranchModel& fault : {open(), closed(), ohms(0.8 * value), ohms(1.2 * value), ohms(value + 20.0)})
        single_faults.push_back({{branch, fault}});
    }
    for (std::size_t i = 0; pairs.size() < pair_count; ++i) {
      const NodePair pair{nodes[i % nodes.size()], nodes[(i / nodes.size() * 2 + i + 1) % nodes.size()]};
      if (pair.plus != pair.minus) pairs.push_back(pair);
    }
  }
};

void prepare(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)));
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(Ohmmeter(bench.network, bench.pairs));
}

void prepare_live(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)), true);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(Voltmeter(bench.network, ohmwright::Frequency::from_value(60.0),
                                       ohmwright::Resistance::from_value(10e6), bench.pairs));
}

/// A variant made, of one or two drifted parts.
void variant(benchmark::State& state, std::size_t changes) {
  const Bench bench(static_cast<std::size_t>(state.range(0)));
  const Ohmmeter ohmmeter(bench.network, bench.pairs);
  std::vector<Change> both = bench.single_faults[2];
  if (changes == 2) both.push_back(bench.single_faults[13].front());
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(ohmmeter.with(both));
}
void variant_of_one(benchmark::State& state) { variant(state, 1); }
void variant_of_two(benchmark::State& state) { variant(state, 2); }

/// One reading of a variant of two drifted parts.
void reading_of_two(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)));
  const Ohmmeter ohmmeter(bench.network, bench.pairs);
  std::vector<Change> both = bench.single_faults[2];
  both.push_back(bench.single_faults[13].front());
  Ohmmeter::Variant variant = ohmmeter.with(both);
  std::size_t pair = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(variant.reading(pair));
    pair = pair + 1 == pair_count ? 0 : pair + 1;
  }
}

void live_reading_of_two(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)), true);
  const Voltmeter voltmeter(bench.network, ohmwright::Frequency::from_value(60.0),
                            ohmwright::Resistance::from_value(10e6), bench.pairs);
  std::vector<Change> both = bench.single_faults[2];
  both.push_back(bench.single_faults[13].front());
  Voltmeter::Variant variant = voltmeter.with(both);
  std::size_t pair = 0;
  for ([[maybe_unused]] auto _ : state) {
    benchmark::DoNotOptimize(variant.reading(pair));
    pair = pair + 1 == pair_count ? 0 : pair + 1;
  }
}

/// Every single and double fault of a set-up at every pair: a meter for each single fault, the doubles as its variants.
template <typename Prepare>
std::size_t predict_all(const Bench& bench, const Prepare& prepare_with) {
  std::size_t readings = 0;
  for (std::size_t first = 0; first < bench.single_faults.size(); ++first) {
    const auto meter = prepare_with(bench.single_faults[first]);
    for (std::size_t pair = 0; pair < pair_count; ++pair, ++readings) benchmark::DoNotOptimize(meter.reading(pair));
    for (std::size_t second = first + 1; second < bench.single_faults.size(); ++second) {
      if (bench.single_faults[second].front().branch == bench.single_faults[first].front().branch) continue;
      auto variant = meter.with(bench.single_faults[second]);
      for (std::size_t pair = 0; pair < pair_count; ++pair, ++readings) benchmark::DoNotOptimize(variant.reading(pair));
    }
  }
  return readings;
}

void all_double_faults(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)));
  std::size_t readings = 0;
  for ([[maybe_unused]] auto _ : state)
    readings +=
        predict_all(bench, [&](const std::vector<Change>& c) { return Ohmmeter(bench.network, bench.pairs, c); });
  state.counters["per_reading"] =
      benchmark::Counter(static_cast<double>(readings), benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

void all_double_faults_live(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)), true);
  std::size_t readings = 0;
  for ([[maybe_unused]] auto _ : state)
    readings += predict_all(bench, [&](const std::vector<Change>& c) {
      return Voltmeter(bench.network, ohmwright::Frequency::from_value(60.0), ohmwright::Resistance::from_value(10e6),
                       bench.pairs, c);
    });
  state.counters["per_reading"] =
      benchmark::Counter(static_cast<double>(readings), benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}

/// What ngspice needs for one operating point of the same network, loaded once: 400 more solves in one process.
void ngspice_solve(benchmark::State& state) {
  const Bench bench(static_cast<std::size_t>(state.range(0)));
  std::string network = "networks\nIprobe 0 n2 DC 1\n";
  for (std::size_t b = 0; b < bench.network.branches().size(); ++b) {
    const Branch& branch = bench.network.branches()[b];
    const auto node = [](NodeIndex n) { return n == 0 ? std::string("0") : "n" + std::to_string(n); };
    network += "R" + std::to_string(b) + " " + node(branch.from) + " " + node(branch.to) + " " +
               std::to_string(branch.model.value_in_si) + "\n";
  }
  const auto seconds = [&](int solves) {
    const std::string script =
        network + ".control\nrepeat " + std::to_string(solves) + "\nop\ndestroy all\nend\nquit 0\n.endc\n.end\n";
    const auto start = std::chrono::steady_clock::now();
    if (!ohmwright::run_program({"ngspice", "-b"}, script)) return -1.0;
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  };
  for ([[maybe_unused]] auto _ : state) {
    const double few = seconds(1);
    const double many = seconds(401);
    if (few < 0.0) return state.SkipWithError("ngspice is not installed");
    state.SetIterationTime((many - few) / 400.0);
  }
}

}  // namespace

BENCHMARK(prepare)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(prepare_live)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(variant_of_one)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(variant_of_two)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(reading_of_two)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(live_reading_of_two)->Arg(5)->Arg(10)->Arg(20)->Arg(40);
BENCHMARK(all_double_faults)->Arg(parts_of_a_whole_prediction)->Unit(benchmark::kMillisecond);
BENCHMARK(all_double_faults_live)->Arg(parts_of_a_whole_prediction)->Unit(benchmark::kMillisecond);
BENCHMARK(ngspice_solve)
    ->Arg(5)
    ->Arg(10)
    ->Arg(20)
    ->Arg(40)
    ->UseManualTime()
    ->Iterations(3)
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_MAIN();
