#include <algorithm>
#include <map>
#include <utility>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

namespace {

/// What is left of a set of faults when the doubtful ones are left out, one after the other, until the rest is at fault
/// with `enough`: the set itself where it is sure enough, or cannot be.
Standing sure_ones_of(Standing set, const FaultList& faults, const Diagnosis& diagnosis, double enough) {
  while (set.probability < enough && set.parts.size() + (set.outside_cause ? 1 : 0) > 1) {
    Standing best;
    const auto consider = [&](Standing fewer) {
      fewer.probability = probability_of(faults, diagnosis, fewer);
      if (fewer.probability > best.probability) best = std::move(fewer);
    };
    if (set.outside_cause) {
      Standing fewer = set;
      fewer.outside_cause.reset();
      consider(std::move(fewer));
    }
    for (std::size_t i = 0; i < set.parts.size(); ++i) {
      Standing fewer = set;
      fewer.parts.erase(fewer.parts.begin() + static_cast<std::ptrdiff_t>(i));
      consider(std::move(fewer));
    }
    set = std::move(best);
  }
  return set;
}

/// Whether a part of `fewer` only follows from one that the likeliest set has beside it: ice on a fan from a board that
/// starts no defrost.
bool follows_from_what_is_left_out(const FaultList& faults, const Diagnosis& diagnosis, const Standing& all,
                                   const Standing& fewer) {
  const auto has = [](const std::vector<std::size_t>& parts, std::size_t part) {
    return std::find(parts.begin(), parts.end(), part) != parts.end();
  };
  const Candidate& candidate =
      faults.candidates()[likeliest_candidate(faults, diagnosis, all.parts, all.outside_cause)];
  const auto is_there = [&](const PartFault& fault) { return faults.fault_of(candidate, fault.part) == fault.fault; };
  const auto& rows = faults.appliance().consequences;
  return std::any_of(rows.begin(), rows.end(), [&](const Consequence& row) {
    return row.cause && has(fewer.parts, row.effect.part) && is_there(row.effect) && is_there(*row.cause) &&
           !has(fewer.parts, row.cause->part);
  });
}

}  // namespace

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
  const Standing sure = sure_ones_of(at, faults, diagnosis, settings.likely);
  if (at.probability < settings.likely && sure.probability >= settings.likely && !sure.parts.empty() &&
      !follows_from_what_is_left_out(faults, diagnosis, at, sure)) {
    at = sure;
    at.is_with_more = true;
  }
  const bool sealed_cause =
      likeliest.outside_cause && faults.appliance().outside_causes[*likeliest.outside_cause].sealed_system;
  if (diagnosis.sealed_system || (sealed_cause && at.probability >= settings.likely))
    at.form = Standing::Form::sealed_system;
  else if (at.probability >= settings.replace && !(at.is_with_more && !steps.empty()))
    at.form = Standing::Form::settled;
  else if (at.probability >= settings.likely)
    at.form = Standing::Form::likely;
  else if (steps.empty())
    at.form = Standing::Form::no_more_steps;
  return at;
}

std::optional<std::size_t> part_alone_at(const TestPoint& point) {
  if (!point.from.terminal || !point.to.terminal || point.from.terminal->part != point.to.terminal->part)
    return std::nullopt;
  const std::size_t part = point.from.terminal->part;
  const bool is_off = std::any_of(point.lifted.begin(), point.lifted.end(),
                                  [part](const PartTerminal& terminal) { return terminal.part == part; });
  return is_off ? std::optional(part) : std::nullopt;
}

}  // namespace ohmwright::locate
