#pragma once

#include <string>
#include <vector>

#include <ohmwright/locate/next_step.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

// A step of a search in words. Between source files of this area.

/// "Ohms across the heater, a lead off (about 10 min)".
std::string step_title(const Appliance& appliance, const locate::Step& step, const Sentences& say);

/// What comes before the reading: power, covers, set-up, leads to lift.
/// The work at hand as that step sees it: a set-up that it leaves as it is needs no end.
locate::WorkState work_before(locate::WorkState work, const locate::Step& step);

std::vector<std::string> work_lines(const Appliance& appliance, const locate::WorkState& work,
                                    const locate::Measurement& measurement, const Sentences& say);

}  // namespace ohmwright
