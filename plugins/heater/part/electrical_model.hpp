#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// Elements between the terminals for a fault mode, or `not_found` for a healthy part. Of an element that is heating
/// (the line has a frequency) the wire is hot.
ModelAnswer append_model(const HeaterRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

}  // namespace ohmwright::heater
