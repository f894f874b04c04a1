#include <ohmwright/plugin/stamp_reader.hpp>

namespace ohmwright {

FoundStamp read_stamp(const ByteSource& file) {
  if (is_elf(file)) return read_elf_stamp(file);
  return {std::nullopt, "it is not a shared library (it does not begin as an ELF file)"};
}

}  // namespace ohmwright
