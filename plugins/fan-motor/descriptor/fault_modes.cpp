#include <ohmwright/component/fault_extents.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::fan_motor {

std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  constexpr std::string_view assumed = "assumed, no source";
  return {
      {"winding-open",
       OHMWRIGHT_TEXT("winding open"),
       0.6,
       assumed,
       {{"no-air", 1.0}, {"warm-cabinet", 0.8}, {"frost-whole-coil", 0.2}},
       {}},
      {"shorted-turns",
       OHMWRIGHT_TEXT("turns shorted"),
       0.3,
       assumed,
       {{"little-air", 0.6}, {"no-air", 0.4}, {"hum-or-smell", 0.6}},
       {}},
      {"bearing-seized",
       OHMWRIGHT_TEXT("bearing seized"),
       0.8,
       assumed,
       {{"no-air", 1.0}, {"warm-cabinet", 0.8}, {"hum-or-smell", 0.4}},
       {}},
      {"blocked-by-ice",
       OHMWRIGHT_TEXT("blocked by ice"),
       1.0,
       assumed,
       {{"no-air", 1.0}, {"noise", 0.5}, {"frost-whole-coil", 0.7}},
       {role::heats_coil, role::ends_defrost, role::senses_coil, role::times_defrost}},
      {"bearing-worn", OHMWRIGHT_TEXT("bearing worn, drags"), 0.7, assumed, {{"noise", 0.9}, {"little-air", 0.4}}, {}},
      {"capacitor-weak",
       OHMWRIGHT_TEXT("capacitor has aged"),
       0.4,
       assumed,
       {{"little-air", 0.5}, {"no-air", 0.4}, {"hum-or-smell", 0.4}},
       {}},
      {"electronics-dead",
       OHMWRIGHT_TEXT("its electronics dead"),
       0.5,
       assumed,
       {{"no-air", 1.0}, {"warm-cabinet", 0.8}},
       {}},
      {"leaks-to-frame",
       OHMWRIGHT_TEXT("leaks to the frame"),
       0.1,
       assumed,
       {{"trips-residual-current-device", 0.8}, {"shock-from-cabinet", 0.2}},
       {}},
      {"bad-joint",
       OHMWRIGHT_TEXT("bad joint in its leads or winding"),
       0.2,
       assumed,
       {{"no-air", 0.6}, {"little-air", 0.5}, {"comes-and-goes", 0.5}, {"warm-cabinet", 0.5}},
       {}},
      {"burnt-joint",
       OHMWRIGHT_TEXT("joint in its leads burnt or corroded through: hundreds of ohms and more"),
       fault_extents::burnt_joint_weight,
       assumed,
       {{"no-air", 0.9}, {"warm-cabinet", 0.7}, {"comes-and-goes", 0.3}},
       {}},
  };
}

}  // namespace ohmwright::fan_motor
