#include <algorithm>
#include <cstdint>
#include <optional>

#include <ohmwright/course/named_faults.hpp>

namespace ohmwright::course {

namespace {

/// By its name; nothing for a part alone, and for a fault that the bench does not have.
std::optional<std::uint16_t> fault_named(const locate::FaultList& faults, const std::string& name) {
  for (std::uint16_t fault = 0; fault < faults.faults().size(); ++fault)
    if (faults.name(fault) == name) return fault;
  return std::nullopt;
}

bool has_fault(const locate::Candidate& candidate, std::uint16_t fault) {
  return std::find(candidate.faults.begin(), candidate.faults.end(), fault) != candidate.faults.end();
}

bool has_part(const locate::FaultList& faults, const locate::Candidate& candidate, std::size_t part) {
  return std::any_of(candidate.faults.begin(), candidate.faults.end(),
                     [&](std::uint16_t fault) { return faults.faults()[fault].fault.part == part; });
}

/// How much of the probability that its part is at fault is the fault's.
double share_of_its_part(const locate::FaultList& faults, const locate::Diagnosis& diagnosis, std::uint16_t fault) {
  double of_part = 0.0;
  double of_fault = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i) {
    const locate::Candidate& candidate = faults.candidates()[i];
    if (has_part(faults, candidate, faults.faults()[fault].fault.part)) of_part += diagnosis.candidates[i];
    if (has_fault(candidate, fault)) of_fault += diagnosis.candidates[i];
  }
  return of_part > 0.0 ? of_fault / of_part : 0.0;
}

}  // namespace

std::vector<std::string> ruled_out(const Reasoning& reasoning, const locate::Diagnosis& before,
                                   const locate::Diagnosis& after, const std::vector<std::string>& named) {
  const locate::FaultList& faults = reasoning.faults();
  std::vector<std::string> out;
  for (const std::string& name : named) {
    const std::optional<std::uint16_t> fault = fault_named(faults, name);
    if (!fault) continue;
    const double share = share_of_its_part(faults, after, *fault);
    const double most = std::min(ruled_out_share, ruled_out_fall * share_of_its_part(faults, before, *fault));
    if (share < most) out.push_back(name);
  }
  return out;
}

double probability_of_faults(const Reasoning& reasoning, const locate::Diagnosis& diagnosis,
                             const std::vector<std::string>& named) {
  const locate::FaultList& faults = reasoning.faults();
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i) {
    const bool has_all = std::all_of(named.begin(), named.end(), [&](const std::string& name) {
      const std::optional<std::uint16_t> fault = fault_named(faults, name);
      return !fault || has_fault(faults.candidates()[i], *fault);
    });
    if (has_all) sum += diagnosis.candidates[i];
  }
  return sum;
}

}  // namespace ohmwright::course
