#pragma once

#include <string>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

#include "job/search.hpp"

namespace ohmwright::cli {

/// Where the search of a call stands, in a few lines: what it says, the likeliest faults, the next step and how to type
/// its answer.
std::string standing_page(JobSearch& search, const PageStyle& style);

/// What the search passes over, and what to do of it; nothing where it passes over nothing.
std::string passed_over_text(const JobSearch& search, const Sentences& say);

/// How the answer to a step is typed: "ohmwright job read heater-alone=VALUE".
std::string command_for(const Appliance& appliance, const locate::Step& step);

}  // namespace ohmwright::cli
