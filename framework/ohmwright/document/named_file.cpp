#include <algorithm>
#include <filesystem>
#include <system_error>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace fs = std::filesystem;

std::vector<std::string> names_in_folder(const std::string& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error))
    if (entry->path().extension() == ".json") names.push_back(entry->path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

std::string named_file(const std::string& folder, const std::string& name, const std::string& what) {
  const std::vector<std::string> names = names_in_folder(folder);
  if (std::binary_search(names.begin(), names.end(), name)) return (fs::path(folder) / (name + ".json")).string();
  const std::string refusal = "there is no " + what + " " + ohmwright::quoted(name) + " in " + folder;
  if (names.empty()) throw InputError(refusal + ", which holds no JSON files");
  throw InputError(refusal + did_you_mean(name, names) +
                   (did_you_mean(name, names).empty() ? "; there is " : " There is ") + one_of(names));
}

}  // namespace ohmwright
