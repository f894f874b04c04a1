// Many simulated logs with known events: simulated_logs [COUNT [FIRST SEED]]. Prints shares of what was found, by what
// the logs hold.
#include <cstdio>
#include <cstdlib>
#include <map>

#include "event_tally.hpp"
#include "simulated_log.hpp"

int main(int argc, char** argv) {
  using namespace ohmwright::cycles;
  using namespace ohmwright::cycles::testing_support;
  const std::uint64_t count = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 1000;
  const std::uint64_t first = argc > 2 ? std::strtoull(argv[2], nullptr, 10) : 1;
  EventTally all;
  std::map<std::string, EventTally> kinds;
  for (std::uint64_t seed = first; seed < first + count; ++seed) {
    const SimulatedLog log = simulate(plan_from_seed(seed), seed);
    LogAnalyser analyser;
    analyser.take(log.rows);
    const LogAnalysis analysis = analyser.finish();
    all.add(log, analysis, seed);
    const SimulatedPlan& plan = log.plan;
    const std::string held = std::string(plan.has_power ? "power " : "") + (plan.has_coil ? "coil " : "");
    kinds[held].add(log, analysis, seed);
    kinds["rows of " + std::to_string(static_cast<int>(plan.spacing_second)) + " s"].add(log, analysis, seed);
    if (plan.has_ice_maker) kinds["ice maker"].add(log, analysis, seed);
    if (plan.is_inverter) kinds["inverter"].add(log, analysis, seed);
  }
  kinds["all"] = all;
  std::printf(
      "| logs | defrosts | recall | precision | onset | causes told | right |\n| --- | ---: | ---: | ---: | ---: | "
      "---: | ---: |\n");
  for (const auto& [name, tally] : kinds)
    std::printf("| %s | %zu | %.4f | %.4f | %.4f | %.3f | %.4f |\n", name.c_str(), tally.expected, tally.recall(),
                tally.precision(), tally.onset_share(),
                tally.found == 0 ? 0.0 : static_cast<double>(tally.causes) / static_cast<double>(tally.found),
                tally.cause_share());
  std::printf("\n%s", all.misses.c_str());
}
