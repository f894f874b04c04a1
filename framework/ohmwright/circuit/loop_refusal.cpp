#include <string>

#include <ohmwright/circuit/loop_refusal.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::circuit {

void refuse_loop(const Network& network, std::span<const BranchIndex> loop) {
  std::string names;
  for (const BranchIndex branch : loop) {
    if (!names.empty()) names += ", ";
    names +=
        network.name(branch).empty() ? "branch " + std::to_string(branch) : ohmwright::quoted(network.name(branch));
  }
  throw LoopOfSources(
      "a supply is bridged without any resistance: " + names +
      " form a loop, and no current follows from it; give one of them a resistance, such as \"0.05 ohm\", "
      "or take one out");
}

void refuse_resonance() {
  throw InputError(
      "coils and capacitors resonate at the line frequency without any loss, and no voltage follows from "
      "it; give each coil its resistance");
}

}  // namespace ohmwright::circuit
