#include <algorithm>
#include <cmath>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/component/symptom.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>
#include <ohmwright/locate/normal.hpp>
#include <ohmwright/locate/signs.hpp>

namespace ohmwright::locate {

namespace {

/// Probability that the candidate shows the symptom: each of its causes may bring it about by itself.
double probability_of_symptom(const FaultList& faults, const Candidate& candidate, const std::string& symptom,
                              double without_cause) {
  double absent = 1.0 - without_cause;
  const bool needs_volts = symptom == trips_residual_current_device || symptom == shock_from_cabinet;
  for (const std::uint16_t fault : candidate.faults)
    for (const SymptomEffect& effect : faults.mode(fault).symptoms)
      if (effect.symptom == symptom)
        absent *= 1.0 - effect.probability * (needs_volts ? faults.faults()[fault].with_volts : 1.0);
  if (candidate.outside_cause)
    for (const SeenSymptom& effect : faults.appliance().outside_causes[*candidate.outside_cause].symptoms)
      if (effect.symptom == symptom) absent *= 1.0 - effect.probability;
  return 1.0 - absent;
}

/// That it shows though nothing in the candidate brings it about. What trips does so by a leak or a short; and where
/// no volts arrive nothing cools, so that no coil fills with frost.
double without_cause_of(const FaultList& faults, const Candidate& candidate, const std::string& symptom,
                        const SignModel& model) {
  const bool is_cut =
      candidate.outside_cause && faults.appliance().outside_causes[*candidate.outside_cause].cuts_supply;
  const bool is_trip = symptom == "trips-breaker" || symptom == "trips-residual-current-device";
  return is_trip || (is_cut && is_of_frost(symptom)) ? model.trip_without_cause : model.without_cause;
}

double of_symptom(const FaultList& faults, const Candidate& candidate, const SymptomSign& sign, bool was_thawed,
                  const SignModel& model) {
  const double shows =
      probability_of_symptom(faults, candidate, sign.symptom, without_cause_of(faults, candidate, sign.symptom, model));
  const double seen = sign.is_there ? shows : 1.0 - shows;
  return was_thawed && is_of_frost(sign.symptom) ? std::pow(seen, model.thawed_frost_weight) : seen;
}

/// A coil that fills with frost again after a thaw is well for days first; what needs no frost fails again at once. A
/// time without power that was too short to thaw it says nothing.
double of_thaw(const FaultList& faults, const Candidate& candidate, const ThawSign& sign, const SignModel& model) {
  constexpr double hour = 3600.0;
  constexpr double day = 86400.0;
  const double frosts = std::max(probability_of_symptom(faults, candidate, "frost-whole-coil", 0.0),
                                 probability_of_symptom(faults, candidate, "frost-far-end", 0.0));
  const double by_frost = model.without_cause + (1.0 - 2.0 * model.without_cause) * frosts;
  const double thawed = sign.unplugged
                            ? normal_probability_below(std::log(sign.unplugged->value() / hour / model.hours_to_thaw) /
                                                       model.spread_of_thaw)
                            : 1.0;
  if (!sign.for_how_long) return thawed * (sign.ran_well ? by_frost : 1.0 - by_frost) + (1.0 - thawed) * 0.5;
  const double days = sign.for_how_long->value() / day;
  const auto density = [days](double median, double spread) {
    return normal_density(std::log(days / median) / spread) / spread;
  };
  const double of_frost = density(model.days_to_frost_again, model.spread_of_frost);
  const double at_once = density(model.days_to_fail_at_once, model.spread_of_fail);
  return thawed * (by_frost * of_frost + (1.0 - by_frost) * at_once) + (1.0 - thawed) * 0.5 * (of_frost + at_once);
}

/// Whether all that is wrong is in that part.
bool is_that_part_alone(const FaultList& faults, const Candidate& candidate, std::size_t part) {
  return !candidate.outside_cause && candidate.faults.size() == 1 &&
         faults.faults()[candidate.faults.front()].fault.part == part;
}

double of_replaced(const FaultList& faults, const Candidate& candidate, const ReplacedSign& sign,
                   const SignModel& model) {
  return is_that_part_alone(faults, candidate, sign.part) == sign.cured ? 1.0 - model.cured_by_chance
                                                                        : model.cured_by_chance;
}

double of_look(const FaultList& faults, const Candidate& candidate, const LookSign& sign, const SignModel& model) {
  const double found = model.found_if(is_seen_by_look(faults, candidate, sign.look));
  return sign.found ? found : 1.0 - found;
}

double of_code(const FaultList& faults, const Candidate& candidate, const CodeSign& sign, const SignModel& model) {
  const bool has_it = std::any_of(candidate.faults.begin(), candidate.faults.end(), [&](std::uint16_t fault) {
    const PartFault& of = faults.faults()[fault].fault;
    return std::find(sign.speaks_of.begin(), sign.speaks_of.end(), of) != sign.speaks_of.end();
  });
  const double by_chance =
      model.code_without_fault / std::sqrt(static_cast<double>(std::max<std::size_t>(1, sign.count)));
  const double seen = has_it ? model.code_with_fault : by_chance;
  return sign.is_old ? std::sqrt(seen) : seen;
}

/// The product over signs, each counted once however often it was said: of two that speak of the same, the later holds.
template <class Sign, class IsSame, class Likelihood>
double product_of(const std::vector<Sign>& signs, IsSame is_same, Likelihood likelihood_of) {
  double product = 1.0;
  for (auto sign = signs.begin(); sign != signs.end(); ++sign) {
    const bool is_said_again =
        std::any_of(sign + 1, signs.end(), [&](const Sign& later) { return is_same(later, *sign); });
    if (!is_said_again) product *= likelihood_of(*sign);
  }
  return product;
}

}  // namespace

double likelihood_of_signs(const FaultList& faults, const Candidate& candidate, const Signs& signs,
                           const SignModel& model) {
  double likelihood = product_of(
      signs.symptoms, [](const SymptomSign& a, const SymptomSign& b) { return a.symptom == b.symptom; },
      [&](const SymptomSign& sign) { return of_symptom(faults, candidate, sign, signs.was_thawed, model); });
  likelihood *= product_of(
      signs.looked_at, [](const LookSign& a, const LookSign& b) { return a.look == b.look; },
      [&](const LookSign& sign) { return of_look(faults, candidate, sign, model); });
  likelihood *= product_of(
      signs.codes, [](const CodeSign& a, const CodeSign& b) { return a.code == b.code; },
      [&](const CodeSign& sign) { return of_code(faults, candidate, sign, model); });
  if (signs.thaw) likelihood *= of_thaw(faults, candidate, *signs.thaw, model);
  likelihood *= product_of(
      signs.replaced, [](const ReplacedSign& a, const ReplacedSign& b) { return a.part == b.part; },
      [&](const ReplacedSign& sign) { return of_replaced(faults, candidate, sign, model); });
  return likelihood;
}

bool is_seen_by_look(const FaultList& faults, const Candidate& candidate, std::size_t look) {
  const std::vector<PartFault>* tells = faults_of_look(faults.appliance(), look);
  if (tells == nullptr) return candidate.outside_cause == outside_cause_of_look(faults.appliance(), look);
  return std::any_of(candidate.faults.begin(), candidate.faults.end(), [&](std::uint16_t fault) {
    return std::find(tells->begin(), tells->end(), faults.faults()[fault].fault) != tells->end();
  });
}

bool is_of_frost(const std::string& symptom) {
  return symptom.find("frost") != std::string::npos && symptom.find("defrost") == std::string::npos;
}

bool tells_of_tripped_breaker(const Signs& signs) {
  return std::any_of(signs.symptoms.begin(), signs.symptoms.end(),
                     [](const SymptomSign& sign) { return sign.is_there && sign.symptom == "trips-breaker"; });
}

bool speaks_of_refrigerant_leak(const Signs& signs) {
  return std::any_of(signs.symptoms.begin(), signs.symptoms.end(),
                     [](const SymptomSign& sign) { return sign.is_there && sign.symptom == "oil-stain"; });
}

bool speaks_of_sealed_system(const Appliance& appliance, const Signs& signs) {
  const bool is_shown = std::any_of(signs.symptoms.begin(), signs.symptoms.end(), [](const SymptomSign& sign) {
    const Symptom* known = symptom_named(sign.symptom);
    return sign.is_there && known != nullptr && known->of == SymptomOf::sealed_system;
  });
  return is_shown || std::any_of(signs.looked_at.begin(), signs.looked_at.end(), [&](const LookSign& sign) {
           const std::optional<std::size_t> cause = outside_cause_of_look(appliance, sign.look);
           return sign.found && cause && appliance.outside_causes[*cause].sealed_system;
         });
}

}  // namespace ohmwright::locate
