#include <algorithm>
#include <numeric>
#include <set>
#include <string>

#include <ohmwright/locate/faults.hpp>
#include <ohmwright/locate/information.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::locate {

namespace {

/// Whether this part can fail in that way at all, whatever the situation.
bool can_happen(const PlacedPart& part, std::uint16_t fault) {
  std::vector<Element> unused;
  const ModelAnswer answer = part.kind->call("the electrical model of a fault",
                                             [&] { return part.part->electrical_model(fault, Situation(), unused); });
  return answer != ModelAnswer::not_applicable;
}

/// Each is kept with what it predicts: 73 000 took 0.5 GB, so that this many take one.
constexpr double most_candidates = 150e3;

/// How many candidates there are of so many faults at once, without those of two faults of one part.
double count_of_candidates(const Appliance& appliance, std::span<const PossibleFault> faults, std::size_t most_faults) {
  std::vector<double> of_part(appliance.parts.size(), 0.0);
  for (const PossibleFault& possible : faults) of_part[possible.fault.part] += 1.0;
  std::vector<double> sets(most_faults + 1, 0.0);  // by size
  sets[0] = 1.0;
  for (const double count : of_part)
    for (std::size_t size = most_faults; size > 0; --size) sets[size] += count * sets[size - 1];
  const double smaller = std::accumulate(sets.begin(), sets.end() - 1, 0.0);
  return smaller + sets.back() + static_cast<double>(appliance.outside_causes.size()) * smaller;
}

void refuse_too_many(const Appliance& appliance, std::span<const PossibleFault> faults, std::size_t most_faults) {
  if (count_of_candidates(appliance, faults, most_faults) <= most_candidates) return;
  throw InputError("its " + std::to_string(appliance.parts.size()) + " parts have " + std::to_string(faults.size()) +
                   " possible faults, and " + std::to_string(most_faults) +
                   " of them at once are more than can be told apart; say fewer at once (--faults)");
}

/// The weight that the user gave, else the assumed one.
double weight_of(const WeightOverrides& overrides, const std::string& name, const std::string& name_of_all,
                 double assumed) {
  for (const std::string& key : {name, name_of_all})
    if (const auto given = overrides.find(key); given != overrides.end()) return given->second;
  return assumed;
}

void refuse_unknown(const WeightOverrides& overrides, const std::set<std::string>& known) {
  for (const auto& [name, weight] : overrides)
    if (known.count(name) == 0)
      throw InputError("there is no fault " + ohmwright::quoted(name) +
                       did_you_mean(name, std::vector<std::string>(known.begin(), known.end())) +
                       " to give a weight to; name PART.FAULT, KIND.FAULT or an outside cause");
}

}  // namespace

bool takes_in(const AnswerKey& key, const AnswerKey& other) {
  if (other.first.empty() && other.second == 0) return key == other;
  return (other.second == 0 || key.second == other.second) &&
         std::includes(key.first.begin(), key.first.end(), other.first.begin(), other.first.end());
}

FaultList::FaultList(const Appliance& appliance, const PriorSettings& settings, const WeightOverrides& overrides,
                     std::span<const std::size_t> repaired)
    : appliance_(&appliance) {
  add_faults(settings, overrides, repaired);
  add_candidates(settings, overrides);
  double sum = 0.0;
  for (const Candidate& candidate : candidates_) sum += candidate.prior;
  for (Candidate& candidate : candidates_) candidate.prior /= sum;
}

std::uint16_t FaultList::fault_of(const Candidate& candidate, std::size_t part) const {
  for (const std::uint16_t fault : candidate.faults)
    if (faults_[fault].fault.part == part) return faults_[fault].fault.fault;
  return not_found;
}

const FaultModeDescriptor& FaultList::mode(std::size_t fault) const {
  const PartFault& of = faults_[fault].fault;
  return appliance_->parts[of.part].kind->descriptor().fault_modes[of.fault];
}

std::string FaultList::name(std::size_t fault) const {
  return appliance_->parts[faults_[fault].fault.part].id + "." + std::string(mode(fault).id);
}

void FaultList::add_faults(const PriorSettings& settings, const WeightOverrides& overrides,
                           std::span<const std::size_t> repaired) {
  std::set<std::string> known;
  const JoinedPlaces places(*appliance_);
  for (const OutsideCause& cause : appliance_->outside_causes) known.insert(cause.id);
  for (std::size_t i = 0; i < appliance_->parts.size(); ++i) {
    const PlacedPart& part = appliance_->parts[i];
    const Descriptor& descriptor = part.kind->descriptor();
    const bool worked_on = std::find(repaired.begin(), repaired.end(), i) != repaired.end();
    for (std::size_t mode = 0; mode < descriptor.fault_modes.size(); ++mode) {
      const FaultModeDescriptor& row = descriptor.fault_modes[mode];
      const std::string name = part.id + "." + std::string(row.id);
      const std::string of_kind = std::string(descriptor.id) + "." + std::string(row.id);
      known.insert({name, of_kind});
      const double weight =
          weight_of(overrides, name, of_kind, row.prior_weight * part.weight_of(static_cast<std::uint16_t>(mode)));
      const auto index = static_cast<std::uint16_t>(mode);
      if (!(weight > 0.0) || !can_happen(part, index)) continue;
      const double odds = settings.odds_of_unit_weight * weight * (worked_on ? settings.repaired_place : 1.0);
      faults_.push_back({{i, index}, odds, row.prior_source, share_with_volts_behind(*appliance_, places, {i, index})});
    }
  }
  refuse_unknown(overrides, known);
}

/// Odds of exactly these faults, with the outside cause. For causes that are independent of each other the odds of an
/// effect to its absence are its own and, of each cause that is there, the probability that it follows; an effect that
/// stays away does so with what is left of that probability.
double FaultList::odds_of(std::span<const std::size_t> set, std::optional<std::size_t> outside) const {
  const auto is_there = [&](const PartFault& fault) {
    return std::any_of(set.begin(), set.end(), [&](std::size_t one) { return faults_[one].fault == fault; });
  };
  double odds = 1.0;
  for (const std::size_t fault : set) {
    double own = faults_[fault].odds;
    for (const Consequence& row : appliance_->consequences)
      if (row.effect == faults_[fault].fault && (row.cause ? is_there(*row.cause) : row.outside_cause == outside))
        own += row.probability;
    odds *= own;
  }
  for (const Consequence& row : appliance_->consequences) {
    const bool is_cause = row.cause ? is_there(*row.cause) : outside && row.outside_cause == outside;
    const bool can_follow =
        std::any_of(faults_.begin(), faults_.end(), [&](const PossibleFault& one) { return one.fault == row.effect; });
    if (is_cause && can_follow && !is_there(row.effect)) odds *= 1.0 - row.probability;
  }
  return odds;
}

void FaultList::add_candidate(std::span<const std::size_t> set, std::optional<std::size_t> outside, double odds) {
  if (!(odds > 0.0)) return;
  Candidate candidate;
  for (const std::size_t fault : set) candidate.faults.push_back(static_cast<std::uint16_t>(fault));
  candidate.outside_cause = outside;
  candidate.prior = odds;
  candidates_.push_back(std::move(candidate));
}

/// A cause outside the parts counts as one fault of a set.
void FaultList::add_candidates(const PriorSettings& settings, const WeightOverrides& overrides) {
  const std::size_t most = std::clamp<std::size_t>(settings.most_faults, 1, Candidate::most_faults);
  refuse_too_many(*appliance_, faults_, most);
  std::vector<std::vector<std::size_t>> sets = fault_sets(faults_.size(), most);
  std::erase_if(sets, [this](const std::vector<std::size_t>& set) {  // a part fails in one way at a time
    for (std::size_t i = 1; i < set.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        if (faults_[set[i]].fault.part == faults_[set[j]].fault.part) return true;
    return false;
  });
  for (const std::vector<std::size_t>& set : sets)
    add_candidate(set, {},
                  set.empty() ? settings.odds_of_unit_weight * settings.nothing_wrong_weight : odds_of(set, {}));
  for (std::size_t i = 0; i < appliance_->outside_causes.size(); ++i) {
    const OutsideCause& cause = appliance_->outside_causes[i];
    const double odds = settings.odds_of_unit_weight * weight_of(overrides, cause.id, cause.id, cause.weight);
    for (const std::vector<std::size_t>& set : sets) {
      const bool follows = std::any_of(set.begin(), set.end(), [&](std::size_t fault) { return is_effect(fault, i); });
      if (set.size() < most || (set.size() == 1 && follows)) add_candidate(set, i, odds * odds_of(set, i));
    }
  }
}

bool FaultList::is_effect(std::size_t fault, std::size_t outside) const {
  return std::any_of(appliance_->consequences.begin(), appliance_->consequences.end(), [&](const Consequence& row) {
    return row.outside_cause == outside && row.effect == faults_[fault].fault;
  });
}

AnswerKey FaultList::answer_of(const Candidate& candidate) const {
  AnswerKey key;
  for (const std::uint16_t fault : candidate.faults) key.first.push_back(faults_[fault].fault.part);
  std::sort(key.first.begin(), key.first.end());
  key.second = candidate.outside_cause ? *candidate.outside_cause + 1 : 0;
  return key;
}

}  // namespace ohmwright::locate
