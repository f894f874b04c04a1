#pragma once

#include <string>

#include <ohmwright/appliance/kit.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The kit of generic frost-free appliances, as it is shipped. Throws DocumentError where it is broken.
Kit shipped_kit(const Environment& environment);

/// `appliance new`: asks what was not answered by `--answer`, by digits, and writes the file of a generic appliance
/// that can be read and has nothing to mend. Questions go to the error stream, the file to `--out` or standard output.
/// When the input ends, what is left counts as not known. Gives the exit code.
int new_appliance(const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
