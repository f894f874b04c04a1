#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/electrical.hpp>

namespace ohmwright {

/// Situations in which models and expectations are asked for: nothing known, each state at each value, the ends and the
/// middle of each chart.
std::vector<Situation> tried_situations(const Descriptor& descriptor);

}  // namespace ohmwright
