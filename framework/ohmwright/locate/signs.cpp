#include <algorithm>
#include <cmath>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/locate/signs.hpp>

namespace ohmwright::locate {

namespace {

/// Probability that the candidate shows the symptom: each of its causes may bring it about by itself.
double probability_of_symptom(const FaultList& faults, const Candidate& candidate, const std::string& symptom,
                              double without_cause) {
  double absent = 1.0 - without_cause;
  for (const std::uint16_t fault : candidate.faults)
    for (const SymptomEffect& effect : faults.mode(fault).symptoms)
      if (effect.symptom == symptom) absent *= 1.0 - effect.probability;
  if (candidate.outside_cause)
    for (const SeenSymptom& effect : faults.appliance().outside_causes[*candidate.outside_cause].symptoms)
      if (effect.symptom == symptom) absent *= 1.0 - effect.probability;
  return 1.0 - absent;
}

double of_symptom(const FaultList& faults, const Candidate& candidate, const SymptomSign& sign, bool was_thawed,
                  const SignModel& model) {
  const double shows = probability_of_symptom(faults, candidate, sign.symptom, model.without_cause);
  const double seen = sign.is_there ? shows : 1.0 - shows;
  return was_thawed && is_of_frost(sign.symptom) ? std::pow(seen, model.thawed_frost_weight) : seen;
}

/// A coil that fills with frost again after a thaw is well for days first.
double of_thaw(const FaultList& faults, const Candidate& candidate, bool ran_well, const SignModel& model) {
  const double frosts = std::max(probability_of_symptom(faults, candidate, "frost-whole-coil", 0.0),
                                 probability_of_symptom(faults, candidate, "frost-far-end", 0.0));
  const double well = model.without_cause + (1.0 - 2.0 * model.without_cause) * frosts;
  return ran_well ? well : 1.0 - well;
}

double of_look(const Candidate& candidate, const OutsideSign& sign, const SignModel& model) {
  const bool is_it = candidate.outside_cause == sign.outside_cause;
  return is_it == sign.found ? 1.0 - model.overlooked : model.overlooked;
}

double of_code(const FaultList& faults, const Candidate& candidate, const CodeSign& sign, const SignModel& model) {
  const bool has_it = std::any_of(candidate.faults.begin(), candidate.faults.end(), [&](std::uint16_t fault) {
    const PartFault& of = faults.faults()[fault].fault;
    return std::find(sign.speaks_of.begin(), sign.speaks_of.end(), of) != sign.speaks_of.end();
  });
  const double seen = has_it ? model.code_with_fault : model.code_without_fault;
  return sign.is_old ? std::sqrt(seen) : seen;
}

}  // namespace

double likelihood_of_signs(const FaultList& faults, const Candidate& candidate, const Signs& signs,
                           const SignModel& model) {
  double likelihood = 1.0;
  for (const SymptomSign& sign : signs.symptoms)
    likelihood *= of_symptom(faults, candidate, sign, signs.was_thawed, model);
  for (const OutsideSign& sign : signs.looked_at) likelihood *= of_look(candidate, sign, model);
  for (const CodeSign& sign : signs.codes) likelihood *= of_code(faults, candidate, sign, model);
  if (signs.ran_well_after_thaw) likelihood *= of_thaw(faults, candidate, *signs.ran_well_after_thaw, model);
  return likelihood;
}

bool is_of_frost(const std::string& symptom) {
  return symptom.find("frost") != std::string::npos && symptom.find("defrost") == std::string::npos;
}

bool speaks_of_sealed_system(const Signs& signs) {
  return std::any_of(signs.symptoms.begin(), signs.symptoms.end(), [](const SymptomSign& sign) {
    const Symptom* known = symptom_named(sign.symptom);
    return sign.is_there && known != nullptr && known->speaks_of_sealed_system;
  });
}

}  // namespace ohmwright::locate
