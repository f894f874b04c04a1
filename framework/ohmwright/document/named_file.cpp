#include <algorithm>
#include <filesystem>
#include <system_error>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
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

bool is_path(std::string_view name_or_file) {
  return name_or_file == "-" || name_or_file == "." || name_or_file == ".." ||
         name_or_file.find('/') != std::string_view::npos || name_or_file.ends_with(".json");
}

std::string named_file(std::span<const std::string> folders, const std::string& name, const std::string& what) {
  const std::string spoken = spoken_name(name);
  std::vector<std::string> names;
  for (const std::string& folder : folders) {
    const std::vector<std::string> here = names_in_folder(folder);
    auto found = std::find(here.begin(), here.end(), name);
    if (found == here.end())
      found =
          std::find_if(here.begin(), here.end(), [&](const std::string& one) { return spoken_name(one) == spoken; });
    if (found != here.end()) return (fs::path(folder) / (*found + ".json")).string();
    names.insert(names.end(), here.begin(), here.end());
  }
  std::string refusal = "there is no " + what + " " + ohmwright::quoted(name);
  if (folders.size() == 1) refusal += " in " + printable(folders.front());
  if (names.empty()) throw InputError(refusal + (folders.size() == 1 ? ", which holds no JSON files" : ""));
  const std::string meant = did_you_mean(name, names);
  constexpr std::size_t most_listed = 12;  // more names than that are no help in a line
  if (names.size() > most_listed && (!meant.empty() || folders.size() > 1))
    throw InputError(refusal + meant + (meant.empty() ? "; s" : " S") + "ee: ohmwright " +
                     (what == "appliance" ? "appliance list" : "ratings"));
  throw InputError(refusal + meant + (meant.empty() ? "; there is " : " There is ") + one_of(names));
}

}  // namespace ohmwright
