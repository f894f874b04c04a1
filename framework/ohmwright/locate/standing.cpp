#include <algorithm>
#include <map>
#include <utility>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

std::vector<AnswerSet> answers(const FaultList& faults, const Diagnosis& diagnosis) {
  std::map<AnswerKey, double> sums;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    sums[faults.answer_of(faults.candidates()[i])] += diagnosis.candidates[i];
  std::vector<AnswerSet> sets;
  for (const auto& [key, probability] : sums) {
    AnswerSet set{key.first, {}, probability};
    if (key.second > 0) set.outside_cause = key.second - 1;
    sets.push_back(std::move(set));
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const AnswerSet& a, const AnswerSet& b) { return a.probability > b.probability; });
  return sets;
}

double probability_of(const FaultList& faults, const Diagnosis& diagnosis, const Standing& standing) {
  const AnswerKey named{standing.parts, standing.outside_cause ? *standing.outside_cause + 1 : 0};
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (diagnosis.candidates[i] > 0.0 && takes_in(faults.answer_of(faults.candidates()[i]), named))
      sum += diagnosis.candidates[i];
  return sum;
}

Standing standing(const FaultList& faults, const Diagnosis& diagnosis, const NextStepSettings& settings,
                  std::span<const Step> steps) {
  const std::vector<AnswerSet> sets = answers(faults, diagnosis);
  const AnswerSet& likeliest = sets.front();
  Standing at{Standing::Form::open, likeliest.parts, likeliest.outside_cause};
  at.probability = probability_of(faults, diagnosis, at);
  const bool sealed_cause =
      likeliest.outside_cause && faults.appliance().outside_causes[*likeliest.outside_cause].sealed_system;
  if (diagnosis.sealed_system || (sealed_cause && at.probability >= settings.likely))
    at.form = Standing::Form::sealed_system;
  else if (at.probability >= settings.replace)
    at.form = Standing::Form::settled;
  else if (at.probability >= settings.likely)
    at.form = Standing::Form::likely;
  else if (steps.empty())
    at.form = Standing::Form::no_more_steps;
  return at;
}

}  // namespace ohmwright::locate
