#pragma once

#include <optional>
#include <string>

#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/plugin/byte_source.hpp>

namespace ohmwright {

/// What a reader found in a library's file: the stamp, or why there is none.
struct FoundStamp {
  std::optional<PluginStamp> stamp;
  std::string refusal;  ///< empty when there is a stamp
};

/// Whether the file begins as an ELF file does.
bool is_elf(const ByteSource& file);

/// Copies the stamp out of a 64-bit ELF shared library without mapping or running anything of it.
///
/// Also makes sure that every segment and the table of sections lie within the file: a library that was cut off ends
/// the whole process inside `dlopen` (SIGBUS), so it must be refused before. Any bytes are safe to hand in. A stamp
/// shorter than ours comes filled up with zeros, so that its ABI number can still be told. Source of the layout: System
/// V ABI, chapters 4 and 5; <elf.h>.
FoundStamp read_elf_stamp(const ByteSource& file);

}  // namespace ohmwright
