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

/// The single faults that some reading tells from "nothing is wrong", and some reading from each fault of another part:
/// there the total variation between the readings of the one and of the other is at least `told_from` (0.95: one
/// reading of twenty may be of either).
std::vector<PartFault> separable_faults(const Appliance& appliance, const Meter& meter, double told_from);

}  // namespace ohmwright::locate
