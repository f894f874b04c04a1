#include <cmath>

#include <ohmwright/batch/tally.hpp>

namespace ohmwright::batch {

namespace {

/// Where the value lies between two limits, in half widths from the middle.
std::optional<double> place_of(const Finding& finding) {
  if (!finding.measured || !finding.limits.lower || !finding.limits.upper) return std::nullopt;
  const double lower = finding.limits.lower->value_in_si();
  const double upper = finding.limits.upper->value_in_si();
  const double place = (2.0 * finding.measured->value_in_si() - lower - upper) / (upper - lower);
  return std::isfinite(place) ? std::optional<double>(place) : std::nullopt;
}

}  // namespace

void Tally::Counts::take(const Finding& finding, const std::optional<double>& place) {
  RuleSummary& rule = rules[finding.rule];
  rule.outcomes.count(finding.outcome);
  if (place) rule.places.take(*place);
}

Population Tally::Counts::named(const Descriptor& descriptor) const {
  Population population{verdicts, {}};
  for (std::size_t i = 0; i < rules.size(); ++i)
    if (rules[i].outcomes.all() > 0) population.rules[std::string(descriptor.rules[i].id)] = rules[i];
  return population;
}

Tally::Counts& Tally::counts_of(std::string_view lot) {
  const auto found = lots_.find(lot);
  return found != lots_.end() ? found->second : lots_.emplace(std::string(lot), Counts(descriptor_)).first->second;
}

void Tally::count(const Verdict& verdict, std::string_view lot) {
  Counts* const of_lot = lot.empty() ? nullptr : &counts_of(lot);
  all_.verdicts.count(verdict.outcome);
  if (of_lot != nullptr) of_lot->verdicts.count(verdict.outcome);
  for (const Finding& finding : verdict.findings) {
    if (finding.outcome == Outcome::silent) continue;
    const std::optional<double> place = place_of(finding);
    all_.take(finding, place);
    if (of_lot != nullptr) of_lot->take(finding, place);
  }
}

void Tally::move_to(Summary& summary) {
  if (all_.verdicts.all() == 0) return;
  KindSummary& kind = summary.kinds[std::string(descriptor_.id)];
  kind.all.add(all_.named(descriptor_));
  for (const auto& [name, counts] : lots_) kind.lots[name].add(counts.named(descriptor_));
  all_ = Counts(descriptor_);
  lots_.clear();
}

}  // namespace ohmwright::batch
