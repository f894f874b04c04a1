#pragma once

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cli {

/// What the parts of an appliance say of its logs, found by their roles and asked of the parts themselves: the heater's
/// power at the line voltage, the temperature that opens the contact that ends a defrost, the control's interval and
/// longest heating. What no part says stays empty.
cycles::LogRatings log_ratings_of(const Appliance& appliance);

/// The same of one part; adds to what is known.
void add_log_ratings(const Descriptor& descriptor, const Part& part, double line_volt, cycles::LogRatings& ratings);

}  // namespace ohmwright::cli
