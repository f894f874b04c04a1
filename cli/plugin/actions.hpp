#pragma once

#include <filesystem>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

// What `ohmwright plugin ACTION` does, one file an action or a pair. Each gives the exit code.

/// Says what a file is, by its stamp and its owner, without running anything of it.
int inspect_plugin(const Arguments& arguments, Environment& environment);
/// Permits the bytes of a file, takes that back, lists what is permitted.
int allow_plugin(const Arguments& arguments, Environment& environment);
int revoke_plugin(const Arguments& arguments, Environment& environment);
int list_allowed_plugins(const Arguments& arguments, Environment& environment);

/// Writes the folder of a new kind.
int new_plugin(const Arguments& arguments, Environment& environment);
/// The conformance kit: what an author has to mend.
int test_plugin(const Arguments& arguments, Environment& environment);
/// Shows for readings, typed as `check` takes them, why each rule spoke or stayed silent.
int debug_plugin(const Arguments& arguments, Environment& environment);

/// Whether a file lies in or below the installation's folder of plugins.
bool is_of_installation(const std::filesystem::path& file, const Environment& environment);

}  // namespace ohmwright::cli
