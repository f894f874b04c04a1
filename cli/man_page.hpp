#pragma once

#include <span>
#include <string>

#include "verb.hpp"

namespace ohmwright::cli {

/// The manual page of the program, section 1, as man(7) source: what it is for and its verbs.
std::string program_manual(std::span<const VerbSpec> verbs, std::string_view version);

/// The manual page of one verb, `ohmwright-VERB`, from the row that help and the parser read.
std::string verb_manual(const VerbSpec& verb, std::string_view version);

}  // namespace ohmwright::cli
