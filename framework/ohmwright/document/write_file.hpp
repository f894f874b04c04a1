#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// Writes a file whole or not at all: beside it, synchronised to the disk, then renamed over it, and the folder
/// synchronised. What was there before stays as it was until the rename, and for good when anything fails.
///
/// A symbolic link stays and the file it leads to is replaced, with its permissions kept. A pipe or a device
/// ("/dev/stdout") is written straight. Throws InputError, which names the path, the reason and, where there is one,
/// the way on: no such folder, a folder, read-only, no space, a limit on the size of files.
void write_file_atomically(const std::string& path, std::string_view bytes);

}  // namespace ohmwright
