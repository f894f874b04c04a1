#include <algorithm>
#include <array>

#include <ohmwright/component/symptom.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

constexpr std::array symptoms{
    Symptom{"frost-whole-coil", OHMWRIGHT_TEXT("The whole coil is thick with frost"), SymptomOf::cooling_appliance},
    Symptom{"frost-far-end", OHMWRIGHT_TEXT("Ice at one end or below the coil, the rest clear"),
            SymptomOf::cooling_appliance},
    Symptom{"frost-first-turns", OHMWRIGHT_TEXT("Frost on the first turns of the coil only, the rest bare"),
            SymptomOf::sealed_system},
    Symptom{"no-frost", OHMWRIGHT_TEXT("No frost at all on the coil while the compressor runs"),
            SymptomOf::sealed_system},
    Symptom{"oil-stain", OHMWRIGHT_TEXT("Oil on a joint of the refrigerant pipes"), SymptomOf::sealed_system},
    Symptom{"warm-cabinet", OHMWRIGHT_TEXT("The cabinet is too warm"), SymptomOf::cooling_appliance},
    Symptom{"warm-food-after-defrost", OHMWRIGHT_TEXT("Food softens after each defrost"), SymptomOf::cooling_appliance},
    Symptom{"long-defrost", OHMWRIGHT_TEXT("A defrost goes on too long"), SymptomOf::cooling_appliance},
    Symptom{"short-defrost", OHMWRIGHT_TEXT("A defrost ends too early"), SymptomOf::cooling_appliance},
    Symptom{"no-defrost", OHMWRIGHT_TEXT("It never defrosts"), SymptomOf::cooling_appliance},
    Symptom{"no-heat", OHMWRIGHT_TEXT("It does not heat")},
    Symptom{"little-heat", OHMWRIGHT_TEXT("It heats, but too weakly")},
    Symptom{"compressor-never-stops", OHMWRIGHT_TEXT("The compressor never stops"), SymptomOf::cooling_appliance},
    Symptom{"dead", OHMWRIGHT_TEXT("Nothing works, no light")},
    Symptom{"no-air", OHMWRIGHT_TEXT("No air moves")},
    Symptom{"little-air", OHMWRIGHT_TEXT("Little air moves")},
    Symptom{"noise", OHMWRIGHT_TEXT("Something that turns grinds, squeals or ticks")},
    Symptom{"hum-or-smell", OHMWRIGHT_TEXT("It hums, gets hot or smells burnt")},
    Symptom{"water-on-floor", OHMWRIGHT_TEXT("Water below the drawers or on the floor")},
    Symptom{"error-code", OHMWRIGHT_TEXT("The control shows an error code")},
    Symptom{"comes-and-goes", OHMWRIGHT_TEXT("The fault comes and goes")},
    Symptom{"fault-since-repair", OHMWRIGHT_TEXT("Since a repair in this place")},
    Symptom{"trips-breaker", OHMWRIGHT_TEXT("The breaker trips")},
    Symptom{"trips-residual-current-device", OHMWRIGHT_TEXT("The residual-current device trips")},
    Symptom{"shock-from-cabinet", OHMWRIGHT_TEXT("The cabinet tingles to the touch")},
    Symptom{"door-does-not-close", OHMWRIGHT_TEXT("The door does not close by itself, or its gasket gapes")},
};

}  // namespace

std::span<const Symptom> known_symptoms() { return symptoms; }

const Symptom* symptom_named(std::string_view id) {
  const auto found = std::find_if(symptoms.begin(), symptoms.end(), [id](const Symptom& one) { return one.id == id; });
  return found == symptoms.end() ? nullptr : &*found;
}

}  // namespace ohmwright
