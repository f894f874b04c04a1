#pragma once

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/plugin/problem_list.hpp>

namespace ohmwright {

// The parts of `descriptor_problems`, one file each.

/// What can be read and at which circumstances: units of their dimension, options that are free, axes that can be
/// drawn.
void check_measurands_and_conditions(const Descriptor& descriptor, ProblemList& problems);

/// Rules, one of them essential: outcomes, sources, sentences.
void check_rules(const Descriptor& descriptor, ProblemList& problems);

/// Advice: sentences, and the procedures by which it is followed.
void check_advice(const Descriptor& descriptor, ProblemList& problems);

/// Cautions and the procedures that show them.
void check_procedures(const Descriptor& descriptor, ProblemList& problems);

}  // namespace ohmwright
