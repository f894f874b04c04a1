#pragma once

#include "environment.hpp"
#include "job/book_file.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Writes down that the part of the first operand was mended where it is, and what was done (`--mended`); says what can
/// hurt, and with `with_commands` what is to be read before it is called repaired. Throws InputError. Gives the exit
/// code.
int mend_and_tell(JobAtHand& job, const Arguments& arguments, Environment& environment, bool with_commands);

}  // namespace ohmwright::cli
