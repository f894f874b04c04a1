#pragma once

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// `log simulate APPLIANCE`: writes a log of it as CSV, with or without a fault. Gives the exit code; throws InputError
/// for words that say nothing.
int simulate_log(const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
