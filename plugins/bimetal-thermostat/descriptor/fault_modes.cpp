#include <ohmwright/component/fault_extents.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::bimetal_thermostat {

std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  constexpr std::string_view assumed = "assumed, no source";
  return {
      {"welded-closed",
       OHMWRIGHT_TEXT("contact welded closed"),
       0.5,
       assumed,
       {{"long-defrost", 0.8}, {"warm-food-after-defrost", 0.6}, {"warm-cabinet", 0.3}},
       {role::heats_coil}},  // too much current welds
      {"stuck-open",
       OHMWRIGHT_TEXT("stuck open, or a lead of it broken"),
       1.5,
       assumed,
       {{"frost-whole-coil", 0.9},
        {"no-defrost", 0.7},  // who sees frost and no melting says so, whatever the control does
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.5},
        {"no-heat", 0.95}},
       {}},
      {"drifted-high",
       OHMWRIGHT_TEXT("drifted, opens and closes too warm"),
       0.4,
       assumed,
       {{"long-defrost", 0.6}, {"warm-food-after-defrost", 0.5}},
       {}},
      {"drifted-low",
       OHMWRIGHT_TEXT("drifted, opens and closes too cold"),
       0.6,
       assumed,
       {{"short-defrost", 0.7}, {"frost-far-end", 0.6}, {"frost-whole-coil", 0.3}},
       {}},
      {"bad-contact",
       OHMWRIGHT_TEXT("contact of high resistance"),
       0.5,
       assumed,
       {{"frost-far-end", 0.5}, {"comes-and-goes", 0.6}, {"short-defrost", 0.2}},
       {}},
      {"link-open",
       OHMWRIGHT_TEXT("thermal link in its housing open"),
       0.8,
       assumed,
       {{"frost-whole-coil", 0.9},
        {"no-defrost", 0.7},
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.4},
        {"no-heat", 0.95}},
       {role::ends_defrost, role::times_defrost,
        role::heats_coil}},  // a link opens because something did not stop the heat
      {"burnt-contact",
       OHMWRIGHT_TEXT("contact burnt through: hundreds of ohms and more"),
       fault_extents::burnt_joint_weight,
       assumed,
       {{"frost-whole-coil", 0.8},
        {"no-defrost", 0.6},
        {"no-heat", 0.9},
        {"warm-cabinet", 0.6},
        {"hum-or-smell", 0.3},
        {"comes-and-goes", 0.3}},
       {role::heats_coil}},
  };
}

}  // namespace ohmwright::bimetal_thermostat
