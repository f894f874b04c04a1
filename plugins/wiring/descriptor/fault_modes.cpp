#include <ohmwright/component/fault_extents.hpp>
#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::wiring {

// A wire may lie anywhere: what shows depends on what hangs on it. The figures are those of wires on the way to a
// defrost heater, a fan or a sensor, together.
std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  constexpr std::string_view assumed = "assumed, no source";
  return {
      {"open",
       OHMWRIGHT_TEXT("open: broken, burnt off or pulled out"),
       0.3,
       assumed,
       {{"frost-whole-coil", 0.4},
        {"warm-cabinet", 0.4},
        {"no-defrost", 0.4},
        {"no-heat", 0.4},
        {"no-air", 0.2},
        {"error-code", 0.2},
        {"fault-since-repair", 0.3}},
       {}},
      {"high-resistance",
       OHMWRIGHT_TEXT("joint corroded or loose: some ohms"),
       0.4,
       assumed,
       {{"long-defrost", 0.4},
        {"little-heat", 0.3},
        {"frost-far-end", 0.2},
        {"hum-or-smell", 0.4},
        {"comes-and-goes", 0.3},
        {"fault-since-repair", 0.2}},
       {}},
      {"intermittent",
       OHMWRIGHT_TEXT("comes and goes as it is moved, warmed or shaken"),
       0.3,
       assumed,
       {{"comes-and-goes", 0.9}, {"error-code", 0.3}, {"fault-since-repair", 0.3}},
       {}},
      {"leaks-to-frame",
       OHMWRIGHT_TEXT("pinched, chafed or wet: leaks to the frame"),
       0.2,
       assumed,
       {{"trips-residual-current-device", 0.8}, {"trips-breaker", 0.3}, {"shock-from-cabinet", 0.2}},
       {}},
      {"burnt-joint",
       OHMWRIGHT_TEXT("joint burnt or corroded through: hundreds of ohms and more"),
       fault_extents::burnt_joint_weight,
       assumed,
       {{"frost-whole-coil", 0.4},
        {"warm-cabinet", 0.4},
        {"no-defrost", 0.4},
        {"no-heat", 0.4},
        {"no-air", 0.2},
        {"error-code", 0.2},
        {"hum-or-smell", 0.3},
        {"comes-and-goes", 0.3}},
       {}},
  };
}

}  // namespace ohmwright::wiring
