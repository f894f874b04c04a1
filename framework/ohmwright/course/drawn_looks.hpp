#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/locate/faults.hpp>

namespace ohmwright::course {

/// Where the looks alone make the parts at fault this probable, nothing is left to measure (assumed).
inline constexpr double most_told_by_looks = 0.8;

/// What can be looked at in the appliance: the symptoms of its faults and causes, but none of the sealed system.
std::vector<std::string> symptoms_to_look_at(const Appliance& appliance);

/// Draws which of them are there: what `truth` brings about, each with its share of cases, and now and then what may
/// have another reason (a noise, frost). Something always is, as nobody calls about nothing: of a healthy appliance,
/// and of a fault that shows nowhere, one of them misleads. Where nothing works nothing is heard, and no display shows
/// a code.
void draw_looks(const locate::FaultList& faults, const locate::Candidate& truth, DrawStream& draws,
                std::span<Look> looks);

/// Whether somebody who has looked at everything and measured nothing knows that these parts are at fault: with more
/// than `most_told_by_looks`, and more than they knew before (an appliance may have one part alone that can fail).
bool are_told_by_looks(Reasoning& reasoning, std::span<const Look> looks, std::span<const std::size_t> parts);

/// What brought the student there: one of the things that can be seen, as the owner tells it, and one that `faults`
/// bring about where there is any. Padded with blanks to the longest that it could have been, so that its length tells
/// nothing.
std::string drawn_complaint(const Appliance& appliance, std::span<const PartFault> faults, std::span<const Look> looks,
                            DrawStream& draws);

}  // namespace ohmwright::course
