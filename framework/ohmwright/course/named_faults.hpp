#pragma once

#include <string>
#include <vector>

#include <ohmwright/course/reasoning.hpp>

namespace ohmwright::course {

/// A fault that keeps less than this of its part's probability is ruled out (what is left beside
/// `decided_probability`)...
inline constexpr double ruled_out_share = 1.0 - decided_probability;
/// ... if it was the readings that brought it there, and took this much of what it had before them: what is rare is not
/// ruled out by a reading that says nothing of it (assumed).
inline constexpr double ruled_out_fall = 0.2;

/// Which of the named faults ("PART.FAULT"; a part alone names none) readings rule out: the part may well be at fault,
/// but not in that way. `before` is what holds without readings.
std::vector<std::string> ruled_out(const Reasoning& reasoning, const locate::Diagnosis& before,
                                   const locate::Diagnosis& after, const std::vector<std::string>& named);

/// Probability that all the named faults are there, those of `named` that name a part alone left aside.
double probability_of_faults(const Reasoning& reasoning, const locate::Diagnosis& diagnosis,
                             const std::vector<std::string>& named);

}  // namespace ohmwright::course
