#pragma once

#include <span>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit {

/// Refuses a loop of sources and conductors without resistance, which no current satisfies: throws InputError naming
/// its branches and the ways on.
[[noreturn]] void refuse_loop(const Network& network, std::span<const BranchIndex> loop);

/// Refuses a network whose coils and capacitors resonate at the line frequency without any loss: throws InputError.
[[noreturn]] void refuse_resonance();

}  // namespace ohmwright::circuit
