#pragma once

#include <ohmwright/job/service_call.hpp>
#include <ohmwright/report/paragraph.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Writes what is still to be proved, and how. Where the sealed system speaks (`stops_at_sealed_system`) nothing is:
/// neither 500 V nor a heater goes on.
void write_unproved(const job::ServiceCall& call, bool stops, const PageStyle& style, Environment& environment);

/// Whether the proof of a repair comes next: something was replaced or mended, it is not closed yet, and nothing that
/// was said, read or checked since speaks of another fault. Also where the sealed system speaks, though something was
/// repaired: then that page says to stop. Throws as the words of `locate` do.
bool proof_comes_next(const job::ServiceCall& call, bool stops, const Arguments& arguments,
                      const Environment& environment);

}  // namespace ohmwright::cli
