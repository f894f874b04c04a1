#include <algorithm>
#include <utility>

#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/locate/site.hpp>

namespace ohmwright::course {

namespace {

/// At the bench a set-up is one, so that its readings are what they are said to be.
locate::ReadingModel every_set_up_takes() {
  locate::ReadingModel model;
  model.set_up_missed = model.temperature_missed = 0.0;
  return model;
}

}  // namespace

Reasoning::Reasoning(const Bench& bench, const Meter& meter) : Reasoning(bench, meter, faults_at(bench, meter)) {}

Reasoning::Reasoning(const Bench& bench, const Meter& meter, locate::FaultList faults)
    : faults_(std::move(faults)),
      prober_(faults_, locate::site_as_found(bench.appliance), meter, every_set_up_takes()),
      reasoner_(prober_) {}

locate::Diagnosis Reasoning::after(std::span<const locate::TakenReading> readings, const locate::Signs& looks) {
  return reasoner_.diagnose(readings, looks);
}

std::vector<std::size_t> Reasoning::parts_of_candidate(std::size_t candidate) const {
  return parts_of(faults_of(faults_, faults_.candidates()[candidate]));
}

double Reasoning::probability_of(const locate::Diagnosis& diagnosis, std::span<const std::size_t> parts) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (std::ranges::equal(parts, parts_of_candidate(i))) sum += diagnosis.candidates[i];
  return sum;
}

bool Reasoning::is_told(const locate::Diagnosis& diagnosis, std::span<const std::size_t> parts) const {
  return probability_of(diagnosis, parts) >= least_tellable &&
         probability_of_at_least(diagnosis, parts) >= decided_probability;
}

double Reasoning::probability_of_at_least(const locate::Diagnosis& diagnosis,
                                          std::span<const std::size_t> parts) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (std::ranges::includes(parts_of_candidate(i), parts)) sum += diagnosis.candidates[i];
  return sum;
}

std::vector<PartFault> faults_of(const locate::FaultList& faults, const locate::Candidate& candidate) {
  std::vector<PartFault> all;
  for (const std::uint16_t fault : candidate.faults) all.push_back(faults.faults()[fault].fault);
  return all;
}

std::vector<std::size_t> parts_of(std::span<const PartFault> faults) {
  std::vector<std::size_t> parts;
  for (const PartFault& fault : faults) parts.push_back(fault.part);
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  return parts;
}

namespace {

// Which faults a part on the table may have: those that an ohmmeter can tell there.

constexpr int trial_draws = 8;

/// One fault of the part at a time; those of weight 0 are left out.
locate::FaultList one_at_a_time(const Appliance& table, const locate::WeightOverrides& weights) {
  locate::PriorSettings settings;
  settings.most_faults = 1;
  const locate::FaultList by_weights(table, settings, weights);
  double odds = 0.0;
  for (const locate::PossibleFault& possible : by_weights.faults()) odds += possible.odds;
  if (odds > 0.0)
    settings.nothing_wrong_weight = odds / settings.odds_of_unit_weight * good_on_the_table / (1.0 - good_on_the_table);
  return locate::FaultList(table, settings, weights);
}

/// All that can be read of the part, once, with that one fault.
std::vector<locate::TakenReading> trial_readings(const Bench& bench, const Meter& meter,
                                                 const locate::FaultList& faults, const locate::Candidate& fault,
                                                 const std::vector<Combination>& all, DrawStream& draws) {
  const DrawnBench drawn(bench, faults, fault, draws);
  const DrawnMeter drawn_meter(meter, draws);
  std::vector<locate::TakenReading> readings;
  for (const Combination& combination : all) {
    const std::optional<double> value = drawn.value_at(combination.measurement, draws);
    readings.push_back(taken_reading(combination, Probe::ohms, drawn_meter.shown(Probe::ohms, value, draws)));
  }
  return readings;
}

bool is_ever_told(Reasoning& reasoning, const Bench& bench, const Meter& meter, const locate::Candidate& fault,
                  const std::vector<Combination>& all, DrawStream& draws) {
  const std::vector<std::size_t> the_part{0};
  bool is_told = false;
  for (int trial = 0; trial < trial_draws && !is_told; ++trial) {
    const std::vector<locate::TakenReading> readings =
        trial_readings(bench, meter, reasoning.faults(), fault, all, draws);
    is_told = reasoning.is_told(reasoning.after(readings, {}), the_part);
  }
  return is_told;
}

}  // namespace

locate::FaultList faults_at(const Bench& bench, const Meter& meter) {
  if (!bench.on_the_table) return locate::FaultList(bench.appliance, {});
  locate::WeightOverrides weights;
  const locate::FaultList every = one_at_a_time(bench.appliance, weights);
  for (std::size_t fault = 0; fault < every.faults().size(); ++fault)
    if (every.mode(fault).id == comes_and_goes_mode) weights[every.name(fault)] = 0.0;
  const locate::FaultList steady = one_at_a_time(bench.appliance, weights);
  Reasoning reasoning(bench, meter, steady);
  const std::vector<Combination> all = combinations(bench);
  DrawStream draws{SecretKey{}};  // no secret: it is the same for all sets
  bool is_any_told = false;
  for (const locate::Candidate& candidate : steady.candidates()) {
    if (candidate.faults.empty()) continue;
    if (is_ever_told(reasoning, bench, meter, candidate, all, draws))
      is_any_told = true;
    else
      weights[steady.name(candidate.faults.front())] = 0.0;
  }
  return is_any_told ? one_at_a_time(bench.appliance, weights) : steady;
}

}  // namespace ohmwright::course
