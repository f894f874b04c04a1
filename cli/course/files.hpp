#pragma once

#include <string>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// What a passphrase is asked for.
enum class PassphraseFor { new_key, made_key };

/// The instructor's passphrase: from the file of --passphrase-file (its first line), from OHMWRIGHT_PASSPHRASE, or
/// typed at the terminal without echo, twice for a new key. Never from the command line, which others can see. Throws
/// InputError where there is none.
std::string course_passphrase(const Arguments& arguments, PassphraseFor use);

/// A whole text file. Throws DocumentError naming it and the reason.
std::string text_of_file(const std::string& path);

/// `deliver`, but over no exercise, record or sealed key, whether the command reads it or not: it is the work of a
/// class.
void deliver_beside_the_class(const std::string& text, const Arguments& arguments, Environment& environment);

/// The operand of that place. Throws InputError saying what belongs there.
const std::string& course_operand(const Arguments& arguments, std::size_t place, const std::string& missing);

}  // namespace ohmwright::cli
