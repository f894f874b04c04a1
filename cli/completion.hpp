#pragma once

#include <span>
#include <string>

#include "verb.hpp"

namespace ohmwright::cli {

// What a shell proposes while a command is typed, made from the table of verbs: verbs, options, the values of options
// that have a choice, actions, the names of kinds (asked of the program), else files.

std::string bash_completion(std::span<const VerbSpec> verbs);
std::string zsh_completion(std::span<const VerbSpec> verbs);
std::string fish_completion(std::span<const VerbSpec> verbs);

}  // namespace ohmwright::cli
