#pragma once

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// `appliance add FILE`: a splice (`--splice PART.TERMINAL`) or a part (`--part ID=KIND --between NODE,NODE`) that was
/// found on site, with a test point of its own. The file is written anew, or `--out`, once what it says can be read.
/// Gives the exit code.
int add_to_appliance(const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
