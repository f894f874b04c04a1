#pragma once

#include <cstddef>
#include <string>

namespace ohmwright {

/// The bytes of a file, or of standard input for the path "-".
///
/// A pipe is read to its end. A regular file longer than `size_limit` bytes is refused by its size, before any of it is
/// read. Throws DocumentError with one problem that names the file: missing (with the name in that folder that was
/// probably meant), a folder, a device, a pipe that nobody writes to, unreadable, or too long.
std::string read_source(const std::string& path, std::size_t size_limit);

/// How messages call that path: "standard input" for "-".
std::string name_of_source(const std::string& path);

}  // namespace ohmwright
