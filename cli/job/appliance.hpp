#pragma once

#include <string>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/job/entry.hpp>
#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// The appliance of a call, its kinds' catalogues bound. Throws InputError where the call has none.
Appliance appliance_of(const job::ServiceCall& call, const Environment& environment);

/// The entry that says which appliance it is: a shipped one by its name, a file with all that is in it, so that the
/// book needs it no more. Throws as `open_appliance` does.
job::NewEntry appliance_entry(const std::string& name_or_file, const Environment& environment);

/// The same for a file's text at hand.
job::NewEntry appliance_entry_of_text(const std::string& file_text, const std::string& called,
                                      const Environment& environment);

}  // namespace ohmwright::cli
