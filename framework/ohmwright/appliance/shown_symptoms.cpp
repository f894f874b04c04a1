#include <algorithm>
#include <array>
#include <string_view>

#include <ohmwright/appliance/shown_symptoms.hpp>
#include <ohmwright/component/symptom.hpp>

namespace ohmwright {

namespace {

/// What only an appliance that cools can show.
constexpr std::array<std::string_view, 11> symptoms_of_cooling{
    "frost-whole-coil", "frost-far-end", "frost-first-turns",       "no-frost",
    "oil-stain",        "warm-cabinet",  "warm-food-after-defrost", "long-defrost",
    "short-defrost",    "no-defrost",    "compressor-never-stops"};

}  // namespace

bool can_show(const Appliance& appliance, std::string_view symptom) {
  const bool is_of_cooling =
      std::find(symptoms_of_cooling.begin(), symptoms_of_cooling.end(), symptom) != symptoms_of_cooling.end();
  if (is_of_cooling) return appliance.refrigerant != "none";
  return symptom_named(symptom) != nullptr ||
         std::any_of(appliance.symptoms.begin(), appliance.symptoms.end(),
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
