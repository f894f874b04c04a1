#pragma once

#include <ohmwright/plugin/elf_stamp.hpp>

namespace ohmwright {

/// Reads the stamp of a library with the reader of its file format, chosen by the first bytes.
///
/// ELF is the one format there is. Another one gets a file beside `elf_stamp.cpp` and a line in this function.
FoundStamp read_stamp(const ByteSource& file);

}  // namespace ohmwright
