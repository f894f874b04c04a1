#pragma once

#include <string>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "part_check.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The same check with what the book has of the part by itself while it was wet, since it was last worked on: what
/// leaked wet leaks again with the next water, however well it insulates dried, and its kind judges the two together.
/// The check as it is where there is nothing such. `part` is an id of the call's appliance, or of a kind.
PartCheck with_what_was_wet(const job::ServiceCall& call, const std::string& part, const PartCheck& check,
                            const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
