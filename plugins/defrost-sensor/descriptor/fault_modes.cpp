#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_sensor {

std::vector<FaultModeDescriptor> describe_fault_modes() {  // in the order of FaultModeIndex
  constexpr std::string_view assumed = "assumed, no source";
  return {
      {"open",
       OHMWRIGHT_TEXT("open sensor or lead"),
       1.0,
       assumed,
       {{"frost-whole-coil", 0.6}, {"warm-cabinet", 0.6}, {"compressor-never-stops", 0.5}, {"error-code", 0.7}},
       {}},
      {"short",
       OHMWRIGHT_TEXT("shorted sensor or lead"),
       1.0,
       assumed,
       {{"frost-whole-coil", 0.8}, {"warm-cabinet", 0.7}, {"error-code", 0.7}},
       {}},
      {"drift-high",
       OHMWRIGHT_TEXT("drifted, reads too high (too cold)"),
       0.8,
       assumed,
       {{"long-defrost", 0.7}, {"warm-food-after-defrost", 0.5}},
       {}},
      {"drift-low",
       OHMWRIGHT_TEXT("drifted, reads too low (too warm)"),
       0.8,
       assumed,
       {{"short-defrost", 0.7}, {"frost-far-end", 0.6}},
       {}},
      {"leakage",
       OHMWRIGHT_TEXT("moisture leaks beside it when wet and cold"),
       1.0,
       assumed,
       {{"short-defrost", 0.5}, {"frost-far-end", 0.5}, {"comes-and-goes", 0.6}},
       {}},
      {"series-resistance",
       OHMWRIGHT_TEXT("corroded joint in series with it"),
       0.6,
       assumed,
       {{"long-defrost", 0.4}, {"comes-and-goes", 0.6}},
       {}},
      {"wrong-curve",
       OHMWRIGHT_TEXT("sensor of another curve fitted"),
       0.2,
       assumed,
       {{"frost-whole-coil", 0.4}, {"frost-far-end", 0.3}, {"fault-since-repair", 0.9}},
       {}},
      {"misplaced",
       OHMWRIGHT_TEXT("clip loose or sensor misplaced"),
       0.7,
       assumed,
       {{"frost-far-end", 0.5}, {"short-defrost", 0.4}, {"fault-since-repair", 0.4}},
       {}},
      {"intermittent",
       OHMWRIGHT_TEXT("comes and goes: a break in it or its lead that closes again"),
       0.3,
       assumed,
       {{"comes-and-goes", 0.9}, {"error-code", 0.4}, {"frost-whole-coil", 0.2}},
       {}},
  };
}

}  // namespace ohmwright::defrost_sensor
