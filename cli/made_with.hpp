#pragma once

#include <string>

namespace ohmwright::cli {

/// What stands at the foot of a page that is handed on: the program, its version, and the day by the local clock.
std::string made_with();

/// The program and its version.
std::string program_name();

}  // namespace ohmwright::cli
