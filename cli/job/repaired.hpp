#pragma once

#include <string>

#include <ohmwright/job/service_call.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// What stands against calling a job repaired.
struct NotRepaired {
  std::string why;              ///< and what is to be done, without its first words "job 1"; empty: it may be
  bool a_word_will_do = false;  ///< who says why it is repaired all the same is let through (--because)
};

/// `call` is the job before it is closed so. Of the arguments the word why (--because) is asked for. Closing goes by
/// it, and so does taking something back of a job that was closed so.
NotRepaired why_not_repaired(const job::ServiceCall& call, const Arguments& arguments, const Environment& environment);

}  // namespace ohmwright::cli
