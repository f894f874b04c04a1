#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/plugin/byte_source.hpp>

namespace ohmwright {

/// Names of the symbols that a 64-bit ELF shared library defines for others, sorted; read from its file without running
/// anything of it. Nothing where it is no such library or is damaged. Any bytes are safe to hand in. Source of the
/// layout: System V ABI, chapters 4 and 5; <elf.h>.
std::optional<std::vector<std::string>> elf_exports(const ByteSource& file);

}  // namespace ohmwright
