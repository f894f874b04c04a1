#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// Whether this appliance can show that symptom: one that the framework knows, or the appliance's file names, and that
/// is none of cooling where nothing cools. Kinds serve many appliances, and say what their faults do in each.
bool can_show(const Appliance& appliance, std::string_view symptom);

/// The symptoms that a fault of a part or a cause outside the parts would show in this appliance, each once, in the
/// order of its file.
std::vector<std::string> shown_symptoms(const Appliance& appliance);

}  // namespace ohmwright
