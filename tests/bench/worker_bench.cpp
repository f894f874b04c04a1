// What a judgement costs in the program and in a worker: the same kind, the same first vector.

#include <unistd.h>

#include <benchmark/benchmark.h>

#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/registry.hpp>

namespace {

using namespace ohmwright;

const std::string heater_folder = std::string(OHMWRIGHT_PLUGIN_FOLDER) + "/heater";

Registry registry_with(bool in_worker) {
  if (!in_worker) return {{heater_folder}, ::geteuid()};
  return {
      {"/no/installation", heater_folder}, ::geteuid(), {.allowed = {}, .worker = WorkerSettings{OHMWRIGHT_WORKER}}};
}

void judge_heater(benchmark::State& state, bool in_worker) {
  const Registry registry = registry_with(in_worker);
  const LoadedKind& kind = registry.kind("heater");
  const MeterSet meters({read_meter(read_document(std::string(OHMWRIGHT_METER_FOLDER) + "/basic.json"))});
  const std::string folder = kind.vectors_folder().string();
  const VectorsDocument vectors =
      read_vectors(read_document(folder + "/" + names_in_folder(folder).front() + ".json"), kind.descriptor(), &meters);
  const VectorCase& vector = vectors.cases.front();
  const PreparedVector prepared = prepare_vector(kind, vector, meters);
  const Evidence evidence(kind.descriptor(), vector.readings, prepared.meters);
  for (auto _ : state)
    benchmark::DoNotOptimize(judge_guarded(*prepared.part, kind.descriptor(), evidence, prepared.settings));
}
BENCHMARK_CAPTURE(judge_heater, in_the_program, false)->UseRealTime();
BENCHMARK_CAPTURE(judge_heater, in_a_worker, true)->UseRealTime();

/// From nothing to a loaded kind: files looked at, library copied, process started, descriptor read.
void load_heater(benchmark::State& state, bool in_worker) {
  for (auto _ : state) {
    const Registry registry = registry_with(in_worker);
    benchmark::DoNotOptimize(registry.kind("heater").descriptor().id);
  }
}
BENCHMARK_CAPTURE(load_heater, in_the_program, false)->UseRealTime();
BENCHMARK_CAPTURE(load_heater, in_a_worker, true)->UseRealTime();

}  // namespace
