#pragma once

#include <span>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Something that a person sees, hears or smells without a meter. Fault modes say how likely they show it.
struct Symptom {
  std::string_view id;       ///< "frost-whole-coil"
  std::string_view english;  ///< "the whole coil is a block of frost"
  /// Only the sealed refrigerant system does this: nothing that this program finds explains it.
  bool speaks_of_sealed_system = false;
};

/// The symptoms that the framework knows. A kind or an appliance may use words of its own beside them.
OHMWRIGHT_CORE_API std::span<const Symptom> known_symptoms();

/// The symptom of that id, or null.
OHMWRIGHT_CORE_API const Symptom* symptom_named(std::string_view id);

}  // namespace ohmwright
