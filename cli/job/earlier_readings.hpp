#pragma once

#include <string>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "part_check.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The same check together with what the book has of the part by itself since it was last worked on, as its kind judges
/// them in one call of `check`: what was read wet, since what leaked wet leaks again with the next water, however well
/// it insulates dried; and the same quantity at other temperatures, since what is good at one alone may be of another
/// curve, or a contact that never opens. Of one temperature what was read last counts. The check as it is where there
/// is nothing such. `part` is an id of the call's appliance, or of a kind.
PartCheck with_what_was_read_before(const job::ServiceCall& call, const std::string& part, const PartCheck& check,
                                    const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
