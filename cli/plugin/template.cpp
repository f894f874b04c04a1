#include "plugin/template.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

#include <ohmwright/document/write_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {

namespace {

namespace fs = std::filesystem;

/// "my-coil" as a type: MyCoil.
std::string type_name(std::string_view kind) {
  std::string name;
  bool begins = true;
  for (const char letter : kind) {
    if (letter == '-') {
      begins = true;
      continue;
    }
    name += begins ? static_cast<char>(std::toupper(static_cast<unsigned char>(letter))) : letter;
    begins = false;
  }
  return name;
}

/// "my-coil" in words: My coil.
std::string title_of(std::string_view kind) {
  std::string title(kind);
  std::replace(title.begin(), title.end(), '-', ' ');
  title.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(title.front())));
  return title;
}

std::string filled(std::string text, std::string_view kind) {
  std::string identifier(kind);
  std::replace(identifier.begin(), identifier.end(), '-', '_');
  const std::array<std::pair<std::string_view, std::string>, 4> fields{{{"@KIND@", std::string(kind)},
                                                                        {"@TITLE@", title_of(kind)},
                                                                        {"@IDENTIFIER@", identifier},
                                                                        {"@CLASS@", type_name(kind)}}};
  for (const auto& [field, value] : fields)
    for (std::size_t at = text.find(field); at != std::string::npos; at = text.find(field, at + value.size()))
      text.replace(at, field.size(), value);
  return text;
}

std::string text_of_file(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
  if (!file) throw InputError("the template " + shell_word(path) + " cannot be read; install ohmwright again");
  return text;
}

}  // namespace

std::vector<TemplateFile> filled_template(const std::vector<fs::path>& folders, std::string_view kind) {
  std::vector<TemplateFile> files;
  for (const fs::path& folder : folders) {
    std::error_code error;
    fs::recursive_directory_iterator entry(folder, error);
    if (error) throw InputError("the templates in " + shell_word(folder) + " cannot be read: " + error.message());
    for (; entry != fs::recursive_directory_iterator(); entry.increment(error)) {
      if (!entry->is_regular_file()) continue;
      fs::path path = filled(entry->path().lexically_relative(folder).string(), kind);
      if (path.extension() == ".in") path.replace_extension();
      std::erase_if(files, [&](const TemplateFile& file) { return file.path == path; });
      files.push_back({path, filled(text_of_file(entry->path()), kind)});
    }
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

void write_new_folder(const fs::path& folder, const std::vector<TemplateFile>& files) {
  std::error_code error;
  if (fs::exists(folder, error) && !fs::is_empty(folder, error))
    throw InputError(shell_word(folder) + " is there already; choose another name, or move it away");
  for (const TemplateFile& file : files) {
    const fs::path path = folder / file.path;
    fs::create_directories(path.parent_path(), error);
    if (error) throw InputError("cannot make the folder " + shell_word(path.parent_path()) + ": " + error.message());
    write_file_atomically(path.string(), file.text);
  }
}

}  // namespace ohmwright::cli
