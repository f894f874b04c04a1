#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/locate/next_step.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

// A step of a search in words. Between source files of this area.

/// "Ohms across the heater, a lead off (about 10 min)".
std::string step_title(const Appliance& appliance, const locate::Step& step, const Sentences& say);

/// The work at hand as that step sees it: a set-up that it leaves as it is needs no end.
locate::WorkState work_before(locate::WorkState work, const locate::Step& step);

/// What comes before the reading, in the order in which it is done: power, covers, leads to lift, set-up;
/// the leads after one that thaws or chills.
std::vector<std::string> work_lines(const Appliance& appliance, const locate::WorkState& work,
                                    const locate::Measurement& measurement, const Sentences& say);

/// How the set-up of a measurement is ended once all is read in it; nothing without one, or where it ends by itself.
std::optional<std::string> way_out_line(const Appliance& appliance, const locate::Measurement& measurement,
                                        const Sentences& say);

}  // namespace ohmwright
