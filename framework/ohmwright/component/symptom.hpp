#pragma once

#include <cstdint>
#include <span>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// What can show a symptom.
enum class SymptomOf : std::uint8_t {
  any_appliance,
  cooling_appliance,  ///< one with a refrigerant: frost, a cabinet that is too warm
  sealed_system,      ///< its sealed refrigerant system alone: nothing that this program finds explains it
};

/// Something that a person sees, hears or smells without a meter. Fault modes say how likely they show it.
struct Symptom {
  std::string_view id;       ///< "frost-whole-coil"
  std::string_view english;  ///< "the whole coil is a block of frost"
  SymptomOf of = SymptomOf::any_appliance;
};

/// The symptoms that the framework knows. A kind or an appliance may use words of its own beside them.
OHMWRIGHT_CORE_API std::span<const Symptom> known_symptoms();

/// The symptom of that id, or null.
OHMWRIGHT_CORE_API const Symptom* symptom_named(std::string_view id);

}  // namespace ohmwright
