#pragma once

#include <cstdint>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::locate::testing {

/// An appliance of three to five parts in a chain from live to neutral, some with a part beside it, with covers,
/// minutes, test points and a set-up drawn from the seed. Small enough to try every order of measurements.
Appliance small_appliance(std::uint64_t seed);

}  // namespace ohmwright::locate::testing
