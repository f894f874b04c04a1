#include <algorithm>
#include <array>

#include <ohmwright/component/role.hpp>
#include <ohmwright/thermal/simulated_fault.hpp>

namespace ohmwright::thermal {

namespace {

constexpr std::array all_faults{SimulatedFault::none,
                                SimulatedFault::no_heat,
                                SimulatedFault::weak_heat,
                                SimulatedFault::never_starts,
                                SimulatedFault::ends_late,
                                SimulatedFault::ends_early,
                                SimulatedFault::fan_stopped,
                                SimulatedFault::door_ajar,
                                SimulatedFault::stuck_in_defrost,
                                SimulatedFault::runs_while_heating,
                                SimulatedFault::little_cooling};

double probability_of(const FaultModeDescriptor& mode, std::string_view symptom) {
  for (const SymptomEffect& effect : mode.symptoms)
    if (effect.symptom == symptom) return effect.probability;
  return 0.0;
}

}  // namespace

std::string_view name_of(SimulatedFault fault) {
  switch (fault) {
    case SimulatedFault::none:
      return "none";
    case SimulatedFault::no_heat:
      return "no-heat";
    case SimulatedFault::weak_heat:
      return "weak-heat";
    case SimulatedFault::never_starts:
      return "never-starts";
    case SimulatedFault::ends_late:
      return "ends-late";
    case SimulatedFault::ends_early:
      return "ends-early";
    case SimulatedFault::fan_stopped:
      return "fan-stopped";
    case SimulatedFault::door_ajar:
      return "door-ajar";
    case SimulatedFault::stuck_in_defrost:
      return "stuck-in-defrost";
    case SimulatedFault::runs_while_heating:
      return "runs-while-heating";
    case SimulatedFault::little_cooling:
      return "little-cooling";
  }
  return "";
}

std::span<const SimulatedFault> simulated_faults() { return all_faults; }

std::optional<SimulatedFault> simulated_fault_named(std::string_view name) {
  for (const SimulatedFault fault : all_faults)
    if (name_of(fault) == name) return fault;
  return std::nullopt;
}

std::optional<SimulatedFault> effect_on_log(const FaultModeDescriptor& mode, std::span<const std::string_view> roles) {
  constexpr double nearly_always = 0.8;
  constexpr double often = 0.4;
  constexpr double sometimes = 0.3;
  const double late = probability_of(mode, "long-defrost");
  const double early = probability_of(mode, "short-defrost");
  if (probability_of(mode, "no-defrost") > 0.9) return SimulatedFault::never_starts;
  if (probability_of(mode, "no-air") > nearly_always)
    return plays(roles, role::moves_air) ? std::optional(SimulatedFault::fan_stopped) : std::nullopt;
  if (late >= often && plays(roles, role::times_defrost)) {
    // What the control does for too long: the whole defrost, or cooling in it.
    if (probability_of(mode, "warm-cabinet") > nearly_always) return SimulatedFault::stuck_in_defrost;
    if (probability_of(mode, "compressor-never-stops") > often) return SimulatedFault::runs_while_heating;
  }
  if (late >= often && late >= early)
    return plays(roles, role::heats_coil) ? SimulatedFault::weak_heat : SimulatedFault::ends_late;
  if (early >= sometimes && early > late && !plays(roles, role::heats_coil)) return SimulatedFault::ends_early;
  if (probability_of(mode, "frost-whole-coil") > nearly_always) return SimulatedFault::no_heat;
  return std::nullopt;
}

}  // namespace ohmwright::thermal
