#pragma once

#include <string>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Writes a report where `--out` says, whole or not at all, else to the terminal.
void deliver(const std::string& text, const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
