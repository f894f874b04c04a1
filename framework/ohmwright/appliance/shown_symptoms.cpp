#include <algorithm>
#include <string_view>

#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>

namespace ohmwright {

bool can_show(const Appliance& appliance, std::string_view symptom) {
  if (const Symptom* known = symptom_named(symptom))
    return known->of == SymptomOf::any_appliance || appliance.refrigerant != "none";
  return std::any_of(appliance.symptoms.begin(), appliance.symptoms.end(),
                     [symptom](const OwnSymptom& own) { return own.id == symptom; });
}

std::vector<std::string> shown_symptoms(const Appliance& appliance) {
  std::vector<std::string> all;
  const auto add = [&all](std::string_view id) {
    if (std::find(all.begin(), all.end(), id) == all.end()) all.emplace_back(id);
  };
  for (const PlacedPart& part : appliance.parts)
    for (const FaultModeDescriptor& mode : part.kind->descriptor().fault_modes)
      for (const SymptomEffect& effect : mode.symptoms)
        if (can_show(appliance, effect.symptom)) add(effect.symptom);
  for (const OutsideCause& cause : appliance.outside_causes)
    for (const SeenSymptom& effect : cause.symptoms) add(effect.symptom);
  return all;
}

}  // namespace ohmwright
