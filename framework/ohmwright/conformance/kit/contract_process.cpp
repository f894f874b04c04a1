// Promises about a kind in a process that judges much: several threads, no memory kept.

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <latch>
#include <malloc.h>
#include <memory>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/document/verdict_record.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t thread_count = 4;
constexpr std::chrono::milliseconds time_in_threads{200};

/// What one evidence gives when nobody else judges.
struct JudgedAlone {
  const VectorCase* vector;
  std::shared_ptr<const Part> part;
  JudgeSettings settings;
  Evidence evidence;
  Verdict verdict;
};

/// Each case as it is and with its values scaled, so that one part has several evidences: threads that judge the same
/// one write the same into what they share, and nothing shows.
std::vector<JudgedAlone> judged_alone(const KindCases& tried) {
  constexpr std::array factors{1.0, 0.6, 1.7};
  std::vector<JudgedAlone> all;
  for (const VectorCase& vector : tried.cases) {
    const PreparedVector prepared = prepare_vector(tried.kind, vector, tried.meters);
    for (const double factor : factors) try {
        std::vector<Reading> readings = vector.readings;
        for (Reading& reading : readings)
          if (auto* stated = std::get_if<StatedValue>(&reading.observed))
            stated->value = AnyQuantity(stated->value.dimension(), stated->value.value_in_si() * factor);
        Evidence evidence(tried.kind.descriptor(), readings, prepared.meters);
        auto judged = judge_guarded(*prepared.part, tried.kind.descriptor(), evidence, prepared.settings);
        if (auto* verdict = std::get_if<Verdict>(&judged))
          all.push_back({&vector, prepared.part, prepared.settings, std::move(evidence), std::move(*verdict)});
      } catch (const InputError&) {  // the meter cannot show that
      }
  }
  return all;
}

/// Where several threads got another verdict than one alone.
struct Differing {
  std::atomic<std::size_t> judged{0};
  std::atomic<std::size_t> differing{0};
  std::atomic<const VectorCase*> first{nullptr};
};

/// Judges all in turn from that place on, until the time is up or any thread found a difference.
void judge_in_turn(const Descriptor& descriptor, const std::vector<JudgedAlone>& alone, std::size_t place,
                   Differing& found) {
  const auto end = std::chrono::steady_clock::now() + time_in_threads;
  do {
    for (std::size_t i = 0; i < alone.size(); ++i) {
      const JudgedAlone& one = alone[(place + i) % alone.size()];
      const auto judged = judge_guarded(*one.part, descriptor, one.evidence, one.settings);
      const auto* verdict = std::get_if<Verdict>(&judged);
      ++found.judged;
      if (verdict != nullptr && equal(*verdict, one.verdict)) continue;
      ++found.differing;
      const VectorCase* none = nullptr;
      found.first.compare_exchange_strong(none, one.vector);
    }
  } while (found.differing == 0 && std::chrono::steady_clock::now() < end);
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
  const std::vector<JudgedAlone> alone = judged_alone(tried);
  if (alone.empty()) return {};  // the check of the vectors tells of it
  Differing found;
  std::latch start(thread_count);
  std::vector<std::thread> threads;
  for (std::size_t thread = 0; thread < thread_count; ++thread)
    threads.emplace_back([&, thread] {
      start.arrive_and_wait();
      judge_in_turn(tried.kind.descriptor(), alone, thread * alone.size() / thread_count, found);
    });
  for (std::thread& thread : threads) thread.join();
  if (found.differing == 0) return {};
  return {found.first.load()->id + ": while other threads judge other readings it says something else (" +
          std::to_string(found.differing) + " of " + std::to_string(found.judged) +
          " verdicts); a part may change nothing while it judges, neither what is mutable nor what is static: make the "
          "buffer a local variable"};
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
