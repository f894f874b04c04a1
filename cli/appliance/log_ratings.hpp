#pragma once

#include <string_view>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cli {

/// What the parts of an appliance say of its logs, found by their roles and asked of the parts themselves: the heater's
/// power at the line voltage, the temperature that opens the contact that ends a defrost, the control's interval and
/// longest heating. What no part says stays empty.
cycles::LogRatings log_ratings_of(const Appliance& appliance);

/// The same of one part; adds to what is known.
void add_log_ratings(const Descriptor& descriptor, const Part& part, double line_volt, cycles::LogRatings& ratings);

/// Why logs can be held against nothing that such a part says, a sentence for each of its roles that logs ask for: they
/// ask by the ids of measurands and conditions (docs/plugin-author.md, "Ids that mean something"), and its kind has
/// others. Empty where it can be asked.
std::vector<std::string_view> what_logs_cannot_ask(const Descriptor& descriptor);

}  // namespace ohmwright::cli
