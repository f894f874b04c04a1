#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Refuses to let the file of `writing`, an option, take the place of one that the same command reads: what its other
/// options and its operands name, and `also_read`, such as what lies in a folder that was named. Throws InputError.
void refuse_to_overwrite(const Arguments& arguments, std::string_view writing,
                         std::span<const std::filesystem::path> also_read = {});

/// Refuses two options that would write one file, there already or not. Throws InputError.
void refuse_one_file_for_both(const Arguments& arguments, std::string_view one, std::string_view other);

/// Writes a report where `--out` says, whole or not at all, else to the terminal. Never over what it was made from.
void deliver(const std::string& text, const Arguments& arguments, Environment& environment);

}  // namespace ohmwright::cli
