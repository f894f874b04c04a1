#pragma once

#include <filesystem>
#include <string>
#include <system_error>
#include <vector>

namespace ohmwright {

/// What a folder says of one of its entries.
struct FolderEntry {
  std::string name;
  bool is_link = false;    ///< a symbolic link itself
  bool is_folder = false;  ///< or leads to one
};

/// The entries of a folder by their names, without `.` and `..`. Where it cannot be read, `error` says why and what was
/// read until then is given.
///
/// std::filesystem makes a path of every entry, component by component; every start of the program lists the folders of
/// all plugins and takes one entry of each.
std::vector<FolderEntry> entries_of(const std::filesystem::path& folder, std::error_code& error);

}  // namespace ohmwright
