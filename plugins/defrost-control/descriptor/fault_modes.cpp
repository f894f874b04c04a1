#include <ohmwright/component/fault_extents.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_control {

std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  constexpr std::string_view assumed = "assumed, no source";
  return {
      {"motor-open",
       OHMWRIGHT_TEXT("timer motor open"),
       0.6,
       assumed,
       {{"no-defrost", 0.95},
        {"frost-whole-coil", 0.9},
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.5},
        {"no-heat", 0.3}},
       {}},
      {"stuck-in-run",
       OHMWRIGHT_TEXT("stuck in run"),
       1.0,
       assumed,
       {{"no-defrost", 0.95},
        {"frost-whole-coil", 0.9},
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.5},
        {"no-heat", 0.3}},
       {}},
      {"stuck-in-defrost",
       OHMWRIGHT_TEXT("stuck in defrost, or its relay welded"),
       0.5,
       assumed,
       {{"long-defrost", 0.6}, {"warm-cabinet", 0.9}, {"warm-food-after-defrost", 0.7}},
       {role::heats_coil}},  // too much current welds
      {"defrost-contact-open",
       OHMWRIGHT_TEXT("contact to the heater never closes"),
       0.6,
       assumed,
       {{"frost-whole-coil", 0.9},
        {"no-defrost", 0.8},
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.4},
        {"no-heat", 0.95}},
       {}},
      {"run-contact-welded",
       OHMWRIGHT_TEXT("contact to the compressor never opens"),
       0.2,
       assumed,
       {{"frost-far-end", 0.4}, {"frost-whole-coil", 0.4}, {"long-defrost", 0.6}, {"compressor-never-stops", 0.6}},
       {}},
      {"bad-contact",
       OHMWRIGHT_TEXT("contact to the heater burnt"),
       0.5,
       assumed,
       {{"frost-far-end", 0.4}, {"comes-and-goes", 0.6}, {"hum-or-smell", 0.3}, {"frost-whole-coil", 0.3}},
       {role::heats_coil}},
      {"no-output",
       OHMWRIGHT_TEXT("gives its heater nothing in a defrost"),
       0.9,
       assumed,
       {{"frost-whole-coil", 0.9}, {"no-defrost", 0.8}, {"warm-cabinet", 0.7}, {"error-code", 0.2}, {"no-heat", 0.95}},
       {role::ends_defrost, role::senses_coil}},  // a sensor that reads warm ends each defrost at once
      {"sensor-input-dead",
       OHMWRIGHT_TEXT("sensor input dead"),
       0.4,
       assumed,
       {{"error-code", 0.6}, {"long-defrost", 0.4}, {"short-defrost", 0.3}, {"frost-whole-coil", 0.4}},
       {role::senses_coil}},
      {"burnt-contact",
       OHMWRIGHT_TEXT("contact to the heater burnt through: hundreds of ohms and more"),
       fault_extents::burnt_joint_weight,
       assumed,
       {{"frost-whole-coil", 0.8},
        {"no-heat", 0.9},
        {"warm-cabinet", 0.6},
        {"hum-or-smell", 0.3},
        {"no-defrost", 0.6},
        {"comes-and-goes", 0.3}},
       {role::heats_coil}},
  };
}

}  // namespace ohmwright::defrost_control
