#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "verb.hpp"

namespace ohmwright::cli {

/// Options that every verb takes.
std::span<const OptionSpec> common_options();

/// A verb to run, with its arguments.
struct Invocation {
  const VerbSpec* verb = nullptr;  ///< null: no verb was typed, or help was asked for the program itself
  Arguments arguments;
};

/// Matches what was typed against the table of verbs. Throws InputError (exit 2) that names what was not understood,
/// what there is, and where to read more. `words` is the command line without the program's name.
Invocation parse_command_line(std::span<const VerbSpec> verbs, const std::vector<std::string>& words);

}  // namespace ohmwright::cli
