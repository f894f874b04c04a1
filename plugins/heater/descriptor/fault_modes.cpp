#include <ohmwright/component/fault_extents.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::heater {

namespace {

constexpr std::string_view assumed = "assumed, no source";

/// A sheath leaks anywhere along the element, and what is read at its two leads differs by where: a third of all leaks
/// at either end, a third in between.
FaultModeDescriptor leak_to_frame(std::string_view id, std::string_view title) {
  constexpr double a_third_of_all = 0.4 / 3.0;
  return {id, title, a_third_of_all, assumed, {{"trips-residual-current-device", 0.8}, {"shock-from-cabinet", 0.2}},
          {}};
}

}  // namespace

std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  return {
      {"open",
       OHMWRIGHT_TEXT("element open"),
       2.0,
       assumed,
       {{"frost-whole-coil", 0.95},
        {"no-defrost", 0.7},  // who sees frost and no melting says so, whatever the control does
        {"warm-cabinet", 0.7},
        {"compressor-never-stops", 0.5},
        {"no-heat", 0.95}},
       {role::ends_defrost, role::limits_heat}},  // one that nothing switched off burns through
      {"opens-hot",
       OHMWRIGHT_TEXT("element or a crimp of it opens when hot"),
       0.3,
       assumed,
       {{"frost-far-end", 0.5}, {"comes-and-goes", 0.6}, {"frost-whole-coil", 0.4}, {"no-heat", 0.5}},
       {}},
      {"shorted-turns",
       OHMWRIGHT_TEXT("part of its wire bridged"),
       0.5,
       assumed,
       {{"short-defrost", 0.3}, {"trips-breaker", 0.2}},
       {}},
      {"one-of-two",
       OHMWRIGHT_TEXT("one of two elements open"),
       0.3,
       assumed,
       {{"frost-far-end", 0.7}, {"long-defrost", 0.7}, {"little-heat", 0.9}},
       {}},
      {"bad-joint",
       OHMWRIGHT_TEXT("bad joint in its leads"),
       0.5,
       assumed,
       {{"frost-far-end", 0.4},
        {"comes-and-goes", 0.5},
        {"long-defrost", 0.4},
        {"little-heat", 0.6},
        {"frost-whole-coil", 0.3},  // from some hundred ohms on it heats nothing
        {"no-heat", 0.3}},
       {}},
      leak_to_frame("leaks-to-frame", OHMWRIGHT_TEXT("leaks to the frame, at its first lead")),
      {"short",
       OHMWRIGHT_TEXT("its leads touch, or all of its wire is bridged"),
       0.1,
       assumed,
       {{"trips-breaker", 0.95}, {"no-heat", 0.9}, {"frost-whole-coil", 0.8}, {"no-defrost", 0.6}},
       {}},
      {"intermittent",
       OHMWRIGHT_TEXT("comes and goes: a break in it that closes again"),
       0.2,
       assumed,
       {{"comes-and-goes", 0.9}, {"frost-far-end", 0.4}, {"frost-whole-coil", 0.3}, {"no-heat", 0.4}},
       {}},
      {"burnt-joint",
       OHMWRIGHT_TEXT("joint in its leads burnt through: hundreds of ohms and more"),
       fault_extents::burnt_joint_weight,
       assumed,
       {{"frost-whole-coil", 0.8},
        {"no-defrost", 0.6},
        {"no-heat", 0.9},
        {"warm-cabinet", 0.6},
        {"hum-or-smell", 0.3},
        {"comes-and-goes", 0.3}},
       {}},
      leak_to_frame("leaks-in-the-middle", OHMWRIGHT_TEXT("leaks to the frame, along its wire")),
      leak_to_frame("leaks-at-the-other-end", OHMWRIGHT_TEXT("leaks to the frame, at its second lead")),
  };
}

}  // namespace ohmwright::heater
