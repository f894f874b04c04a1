#include <algorithm>

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

Reasoning::Reasoning(const Bench& bench, const Meter& meter)
    : faults_(bench.appliance, {}),
      prober_(faults_, locate::site_as_found(bench.appliance), meter, every_set_up_takes()),
      reasoner_(prober_) {}

locate::Diagnosis Reasoning::after(std::span<const locate::TakenReading> readings, const locate::Signs& looks) {
  return reasoner_.diagnose(readings, looks);
}

std::vector<std::size_t> Reasoning::parts_of_candidate(std::size_t candidate) const {
  std::vector<PartFault> faults;
  for (const std::uint16_t fault : faults_.candidates()[candidate].faults)
    faults.push_back(faults_.faults()[fault].fault);
  return parts_of(faults);
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

std::vector<std::size_t> parts_of(std::span<const PartFault> faults) {
  std::vector<std::size_t> parts;
  for (const PartFault& fault : faults) parts.push_back(fault.part);
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  return parts;
}

}  // namespace ohmwright::course
