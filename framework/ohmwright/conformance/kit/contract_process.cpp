// Promises about a kind in a process that judges much: several threads, no memory kept.

#include <algorithm>
#include <atomic>
#include <malloc.h>
#include <string>
#include <thread>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

namespace {

constexpr int thread_count = 4;
constexpr int rounds_in_threads = 50;

/// Judges the same evidence from several threads; how many of the verdicts were not `expected`.
int differing_verdicts(const KindCases& tried, const PreparedVector& prepared, const Evidence& evidence,
                       const Verdict& expected) {
  std::atomic<int> differing{0};
  std::vector<std::thread> threads;
  for (int thread = 0; thread < thread_count; ++thread)
    threads.emplace_back([&] {
      for (int round = 0; round < rounds_in_threads; ++round) {
        const auto judged = judge_guarded(*prepared.part, tried.kind.descriptor(), evidence, prepared.settings);
        const auto* verdict = std::get_if<Verdict>(&judged);
        if (verdict == nullptr || !equal(*verdict, expected)) ++differing;
      }
    });
  for (std::thread& thread : threads) thread.join();
  return differing;
}

/// Bytes that the allocator has given away; 0 where it does not count.
std::size_t bytes_in_use() { return ::mallinfo2().uordblks; }

void make_and_judge(const KindCases& tried, int rounds) {
  for (int round = 0; round < rounds; ++round)
    for (const VectorCase& vector : tried.cases) {
      const PreparedVector prepared = prepare_vector(tried.kind, vector, tried.meters);
      (void)outcome_of(tried, prepared, vector.readings);
    }
}

}  // namespace

std::vector<std::string> breaches_of_threads(const KindCases& tried) {
  return look_at_cases(tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict,
                                  auto say) {
    const Evidence evidence(tried.kind.descriptor(), vector.readings, prepared.meters);
    const int differing = differing_verdicts(tried, prepared, evidence, verdict);
    if (differing > 0)
      say(std::to_string(differing) + " of " + std::to_string(thread_count * rounds_in_threads) +
          " verdicts of several threads differ; a part may change nothing while it judges, not even what is mutable");
  });
}

std::vector<std::string> breaches_of_memory(const KindCases& tried) {
  constexpr int warm_up = 3;
  constexpr int spans = 3;
  constexpr int rounds = 10;
  make_and_judge(tried, warm_up);
  // What leaks grows in every span; a buffer of the library or of another thread that grew once does not.
  std::size_t least_growth = bytes_in_use();
  for (int span = 0; span < spans; ++span) {
    const std::size_t before = bytes_in_use();
    make_and_judge(tried, rounds);
    const std::size_t after = bytes_in_use();
    least_growth = std::min(least_growth, after - std::min(before, after));
  }
  const std::size_t kept = least_growth / (static_cast<std::size_t>(rounds) * tried.cases.size());
  if (kept == 0) return {};
  return {"it keeps " + std::to_string(kept) +
          " bytes for each part that is made and judged; hold memory in objects that free it"};
}

}  // namespace ohmwright
