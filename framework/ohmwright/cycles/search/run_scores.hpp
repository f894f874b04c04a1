#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace ohmwright::cycles {

/// Score of how long something lasted that may be a defrost's heating: 8 to 40 minutes is best.
double duration_score(double second);

/// Score of the time to the nearest like event; nothing when there is only one.
double spacing_score(std::optional<double> second);

/// Time from each of these starts [s] to the nearest other one.
std::optional<double> nearest(const std::vector<double>& starts, std::size_t i);

/// What comes every hour or two is a compressor, an ice maker or a door, whatever its level. Starts [s] in order.
bool come_too_often(const std::vector<double>& starts);

}  // namespace ohmwright::cycles
