#pragma once

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Reads every log of a folder, or of a shard of it, and writes one line of JSON a log
/// (schemas/log-record.schema.json): the file and what `log --format json` says of it, or why it was refused. Gives the
/// exit code.
int run_log_folder(const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
