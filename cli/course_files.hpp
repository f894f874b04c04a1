#pragma once

#include <string>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The instructor's passphrase: from the file of --passphrase-file (its first line), from OHMWRIGHT_PASSPHRASE, or
/// typed at the terminal without echo, twice when `is_new`. Never from the command line, which others can see. Throws
/// InputError where there is none.
std::string course_passphrase(const Arguments& arguments, Environment& environment, bool is_new);

/// A whole text file. Throws DocumentError naming it and the reason.
std::string text_of_file(const std::string& path);

/// The operand of that place. Throws InputError saying what belongs there.
const std::string& course_operand(const Arguments& arguments, std::size_t place, const std::string& missing);

}  // namespace ohmwright::cli
