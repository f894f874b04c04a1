#pragma once

#include <string>

namespace ohmwright::cli {

/// What stands at the foot of a page that is handed on: the program, its version, and the day by the local clock.
std::string made_with();

/// "ohmwright 0.1.0"
std::string program_version();

}  // namespace ohmwright::cli
