#pragma once

#include "rules/scene.hpp"

namespace ohmwright::heater {

// Advice on what is read while it heats.

/// Its cold ohms are right.
bool is_intact(const Scene& scene);

/// Advice that heats it; until its insulation is proved, the test that comes before instead, and then the step that
/// decides, for afterwards. None on far too many volts.
void advise_to_heat(const Scene& scene, AdviceIndex what);

/// Cold ohms and what it draws: they contradict each other, or the one leaves open what the other would tell.
void advise_on_witness(const Scene& scene);

/// The ohms lie near an end: the better meter, and the clamp, for which the wire's gain when hot is no guess.
void advise_on_near_end(const Scene& scene);

/// Volts of the outlet that do not reach its own leads while it heats: a joint on the way burns, however good the
/// element is.
void advise_on_lost_volts(const Scene& scene);

/// What it draws, the volts it gets, and the step that is missing between the two.
void advise_on_load(const Scene& scene);

}  // namespace ohmwright::heater
