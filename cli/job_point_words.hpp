#pragma once

#include <string>
#include <string_view>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::cli {

/// Whether a word may stand beside readings at test points, whose leads and supply the appliance's file states already:
/// "--lead-off", "--in-circuit", "--proved-dead", "--unplugged", "--live".
bool is_stated_by_points(const std::string& word);

/// Refuses what contradicts the test point; what it says itself may be said again.
void refuse_what_the_point_contradicts(std::string_view option, const TestPoint& point, bool live);

}  // namespace ohmwright::cli
