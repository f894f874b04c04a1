#pragma once

#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Tells what ended each defrost: by the coil's temperature at the end, by the ratings, and by what the defrosts of one
/// log have in common. What the log cannot show stays unknown; so does a rise in which the load was logged and no
/// heater drew.
void tell_end_causes(const LogRatings& ratings, double spacing_second, std::vector<Defrost>& defrosts);

}  // namespace ohmwright::cycles
