#pragma once

#include <string>

#include <ohmwright/appliance/appliance.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// Where the file of NAME|FILE is. Throws InputError with the names there are.
std::string appliance_path(const Environment& environment, const std::string& name_or_file);

/// The appliance for NAME|FILE: one that is shipped, or a file. The catalogues of its kinds are bound. Throws
/// InputError with the names there are, DocumentError for a bad file.
Appliance open_appliance(const Environment& environment, const std::string& name_or_file);

}  // namespace ohmwright::cli
