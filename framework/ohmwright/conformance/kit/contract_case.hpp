#pragma once

#include <string>
#include <variant>
#include <vector>

#include <ohmwright/conformance/kit/contract.hpp>
#include <ohmwright/conformance/vector_check.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>

namespace ohmwright {

/// The verdict on the readings, or why there is none. Throws InputError where the meter cannot show them.
inline std::variant<Verdict, NotJudged> judged_case(const LoadedKind& kind, const PreparedVector& prepared,
                                                    const std::vector<Reading>& readings) {
  const Evidence evidence(kind.descriptor(), readings, prepared.meters);
  return judge_guarded(*prepared.part, kind.descriptor(), evidence, prepared.settings);
}

/// Lets `look` see the verdict of every case that is judged, and gather what is wrong: `look(case, prepared, verdict,
/// say)`. Cases that are not judged are told of by the check of the vectors.
template <class Look>
std::vector<std::string> look_at_cases(const KindCases& tried, Look look) {
  std::vector<std::string> breaches;
  for (const VectorCase& vector : tried.cases) {
    const auto say = [&](const std::string& what) { breaches.push_back(vector.id + ": " + what); };
    const PreparedVector prepared = prepare_vector(tried.kind, vector, tried.meters);
    const auto judged = judged_case(tried.kind, prepared, vector.readings);
    if (const auto* verdict = std::get_if<Verdict>(&judged)) look(vector, prepared, *verdict, say);
  }
  return breaches;
}

/// The outcome for other readings of the same case; a plugin that fails on them, and a meter that cannot show them,
/// give undecided: neither is a pass.
inline Outcome outcome_of(const KindCases& tried, const PreparedVector& prepared,
                          const std::vector<Reading>& readings) {
  try {
    const auto judged = judged_case(tried.kind, prepared, readings);
    const auto* verdict = std::get_if<Verdict>(&judged);
    return verdict == nullptr ? Outcome::undecided : verdict->outcome;
  } catch (const InputError&) {
    return Outcome::undecided;
  }
}

}  // namespace ohmwright
