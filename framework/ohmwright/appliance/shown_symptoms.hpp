#pragma once

#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// The symptoms that a fault of a part or a cause outside the parts would show in this appliance, each once, in the
/// order of its file.
std::vector<std::string> shown_symptoms(const Appliance& appliance);

}  // namespace ohmwright
