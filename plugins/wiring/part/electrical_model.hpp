#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/wiring_ratings.hpp"

namespace ohmwright::wiring {

/// Elements between the terminals for a fault mode, or `not_found` for a sound one. Null ratings, or a lead whose
/// length nobody knows: only what an open one and a bad joint are is known.
ModelAnswer append_model(const WiringRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

}  // namespace ohmwright::wiring
