#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// Whether one heater can stand in for another: volts, power at the volts of the place (the original's rated ones where
/// none are given), elements, build, length. Null ratings: nothing can be compared.
std::vector<EquivalenceFinding> compare_heaters(const HeaterRatings* original, const HeaterRatings* candidate,
                                                const ComparisonContext& context);

}  // namespace ohmwright::heater
