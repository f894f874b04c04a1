#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::cli {

/// A file of a new kind's folder.
struct TemplateFile {
  std::filesystem::path path;  ///< within the folder
  std::string text;
};

/// The files of these template folders for a kind of that id, `@KIND@`, `@TITLE@`, `@IDENTIFIER@` and `@CLASS@` filled
/// in in their names and texts; ".in" at the end of a name is left out; of two files of one name the later
/// folder's. Throws InputError where a folder is
/// missing or a file cannot be read.
std::vector<TemplateFile> filled_template(const std::vector<std::filesystem::path>& folders, std::string_view kind);

/// Writes the files into a folder that must not be there yet or be empty. Throws InputError; what was written before
/// stays then.
void write_new_folder(const std::filesystem::path& folder, const std::vector<TemplateFile>& files);

}  // namespace ohmwright::cli
