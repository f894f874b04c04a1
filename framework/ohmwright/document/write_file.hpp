#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// Writes a file whole or not at all: beside it, synchronised to the disk, then moved into its place, and the folder
/// synchronised. What was there before stays as it was until that move, and for good when anything fails.
///
/// Where the file system has files without a name, the bytes are written to one, so that a process killed while it
/// writes leaves nothing; only to replace a file it gets a name beside it, for the instant before the move. Elsewhere,
/// and for that instant, signals that can wait do wait, so that only a kill leaves ".ohmwright-….part".
///
/// A symbolic link stays and the file it leads to is replaced; its permissions are kept as far as the umask allows, the
/// bits that lend the owner's rights are not. A pipe or a device ("/dev/stdout") is written straight. Throws
/// InputError, which names the path, the reason and, where there is one, the way on: no such folder, a folder,
/// read-only, no space, a limit on the size of files.
void write_file_atomically(const std::string& path, std::string_view bytes);

}  // namespace ohmwright
