#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/component/meter.hpp>

namespace ohmwright::course {

/// What people call a range: "600 ohm", "6 kohm", "60 V".
std::string range_name(const MeterRange& range, Dimension dimension);

/// The names of all ranges of that dimension, smallest first; none where the meter has none.
std::vector<std::string> range_names(const Meter& meter, Dimension dimension);

/// What the display shows of a value [SI; nothing is over every range], on the range of that name or the one that the
/// meter takes by itself ("auto"): digits of its resolution, "OL" past its end. The name must be one of the meter's.
std::string shown_on(const Meter& meter, Dimension dimension, const std::string& range, std::optional<double> value);

}  // namespace ohmwright::course
