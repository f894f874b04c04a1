#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/report/plan_report.hpp>

namespace ohmwright {

// Between source files of this area.

/// The number of the step at each place of a plan, from 1 in their order; 0 where the plan ends.
std::vector<std::size_t> step_numbers(const locate::Plan& plan);

/// The ends of a class of readings [SI], as the meter shows them: its leads' resistance is in ohms.
std::pair<double, double> shown_range(const PlanReport& report, const locate::Step& step,
                                      const locate::SeenReading& readings);

/// How a plan ends at a place: "FOUND: Defrost heater: element open, 99.8 %".
std::string ending_text(const PlanReport& report, const locate::PlanPlace& place, const Sentences& say);

}  // namespace ohmwright
