#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <sys/stat.h>

#include <ohmwright/document/open_file.hpp>

// Between write_file.cpp, which says where a file goes, and whole_file.cpp, which puts it there.

namespace ohmwright {

/// Where a whole file is to stand.
struct FilePlace {
  std::string path;              ///< as it was typed: what messages call it
  std::filesystem::path target;  ///< the same with its symbolic links followed
  /// What stands there now, null when nothing does. The new file takes its owner, where the user may give files away,
  /// and its permissions as far as the umask allows, without the bits that lend the owner's rights.
  const struct stat* before = nullptr;

  std::filesystem::path folder() const;
};

/// Puts a file there, whole or not at all. Throws InputError.
void put_whole_file(const FilePlace& place, std::string_view bytes);

/// Writes all bytes; gives 0, or the system's error number.
int write_all(const OpenFile& file, std::string_view bytes);

/// What the system's error number means to whoever wanted to write a file.
std::string write_reason(int error);

/// Throws InputError: "cannot write PATH: why".
[[noreturn]] void refuse_to_write(const std::string& path, const std::string& why);

}  // namespace ohmwright
