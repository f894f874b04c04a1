#pragma once

#include <span>

#include <ohmwright/circuit/network.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::circuit {

/// A supply that is bridged without any resistance: a short, to whoever asks what a fault does.
class LoopOfSources : public InputError {
 public:
  using InputError::InputError;
};

/// Refuses a loop of sources and conductors without resistance, which no current satisfies: throws LoopOfSources naming
/// its branches and the ways on.
[[noreturn]] void refuse_loop(const Network& network, std::span<const BranchIndex> loop);

/// Refuses a network whose coils and capacitors resonate at the line frequency without any loss: throws InputError.
[[noreturn]] void refuse_resonance();

}  // namespace ohmwright::circuit
