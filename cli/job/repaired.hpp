#pragma once

#include <string>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Why a job is not called repaired, and what is to be done, as a sentence without its first words "job 1"; empty: it
/// may be. `call` is the job before it is closed so. Of the arguments the word why (--because) is asked for. Closing
/// goes by it, and so does taking something back of a job that was closed so.
std::string why_not_repaired(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
