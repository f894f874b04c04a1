#pragma once

#include <span>
#include <vector>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/component/meter.hpp>

namespace ohmwright::locate {

/// What no reading that the appliance's file allows can tell, by the values of its network: faults that read as if
/// nothing were wrong (`unseen_fault`), and pairs of faults that read alike at every test point after every set-up
/// (`never_told_apart`; of more than two such, each with the first).
///
/// Two faults read alike where a meter's reading of the one would be taken for one of the other in nine of ten cases
/// (total variation below 0.1), each as far as its kind says it may go, parts within their tolerances.
///
/// `known` are findings of `check_appliance`: the faults that connections alone hide are not asked for again.
std::vector<ApplianceFinding> never_told_apart(const Appliance& appliance, const Meter& meter,
                                               std::span<const ApplianceFinding> known = {});

}  // namespace ohmwright::locate
