#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// Names of the JSON files in a folder without their ending, in alphabetical order; none when there is no such folder.
std::vector<std::string> names_in_folder(const std::string& folder);

/// Whether somebody who was asked for a name or a file named a file: it says where, ends in ".json", or is "-" for
/// standard input.
bool is_path(std::string_view name_or_file);

/// Path of the file of that name: FOLDER/NAME.json, in the first folder that has it. A name in another letter case, or
/// with blanks or underscores for its hyphens, finds its file too. `what` is what messages call it ("meter",
/// "ratings"). Throws InputError naming what there is, and what was probably meant.
std::string named_file(std::span<const std::string> folders, const std::string& name, const std::string& what);
inline std::string named_file(const std::string& folder, const std::string& name, const std::string& what) {
  return named_file(std::span(&folder, 1), name, what);
}

}  // namespace ohmwright
