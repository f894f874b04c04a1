#include <algorithm>
#include <cerrno>
#include <dirent.h>
#include <memory>
#include <string_view>

#include <ohmwright/plugin/folder_listing.hpp>

namespace ohmwright {

namespace {

struct CloseFolder {
  void operator()(::DIR* folder) const { ::closedir(folder); }
};

FolderEntry entry_of(const struct ::dirent& listed, const std::filesystem::path& folder) {
  FolderEntry entry{listed.d_name, listed.d_type == DT_LNK, listed.d_type == DT_DIR};
  if (listed.d_type != DT_LNK && listed.d_type != DT_UNKNOWN) return entry;
  std::error_code ignored;  // what cannot be looked at is no folder for us
  const std::filesystem::path path = folder / entry.name;
  entry.is_link = std::filesystem::is_symlink(path, ignored);
  entry.is_folder = std::filesystem::is_directory(path, ignored);
  return entry;
}

}  // namespace

std::vector<FolderEntry> entries_of(const std::filesystem::path& folder, std::error_code& error) {
  std::vector<FolderEntry> entries;
  const std::unique_ptr<::DIR, CloseFolder> opened(::opendir(folder.c_str()));
  errno = opened ? 0 : errno;
  while (opened) {
    const struct ::dirent* listed = ::readdir(opened.get());
    if (listed == nullptr) break;
    const std::string_view name = listed->d_name;
    if (name != "." && name != "..") entries.push_back(entry_of(*listed, folder));
    errno = 0;
  }
  error.assign(errno, std::generic_category());
  std::sort(entries.begin(), entries.end(), [](const FolderEntry& a, const FolderEntry& b) { return a.name < b.name; });
  return entries;
}

}  // namespace ohmwright
