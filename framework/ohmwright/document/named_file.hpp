#pragma once

#include <string>
#include <vector>

namespace ohmwright {

/// Names of the JSON files in a folder without their ending, in alphabetical order; none when there is no such folder.
std::vector<std::string> names_in_folder(const std::string& folder);

/// Path of the file of that name: FOLDER/NAME.json. `what` is what messages call it ("meter", "ratings").
/// Throws InputError naming what there is, and what was probably meant.
std::string named_file(const std::string& folder, const std::string& name, const std::string& what);

}  // namespace ohmwright
