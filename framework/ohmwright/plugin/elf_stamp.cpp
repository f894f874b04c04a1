#include <algorithm>
#include <array>
#include <bit>
#include <cstring>
#include <elf.h>
#include <string_view>
#include <vector>

#include <ohmwright/plugin/elf_stamp.hpp>
#include <ohmwright/plugin/elf_tables.hpp>

namespace ohmwright {

namespace {

#if defined(__x86_64__)
constexpr unsigned our_machine = EM_X86_64;
#elif defined(__aarch64__)
constexpr unsigned our_machine = EM_AARCH64;
#elif defined(__riscv)
constexpr unsigned our_machine = EM_RISCV;
#elif defined(__powerpc64__)
constexpr unsigned our_machine = EM_PPC64;
#elif defined(__s390x__)
constexpr unsigned our_machine = EM_S390;
#else
#error "name the ELF machine of this processor here"
#endif
constexpr unsigned char our_byte_order = std::endian::native == std::endian::little ? ELFDATA2LSB : ELFDATA2MSB;

constexpr std::uint64_t part_needed_of_stamp = offsetof(PluginStamp, build_tag);  // magic, size, ABI: for ever there
constexpr std::uint64_t longest_section_names = 1U << 20U;                        // real ones take some hundred bytes

FoundStamp refused(std::string why) { return {std::nullopt, std::move(why)}; }

FoundStamp cut_off(const ByteSource& file, std::string_view what) {
  return refused("the file ends after " + std::to_string(file.size()) + " bytes, before the end of " +
                 std::string(what) + ": it was cut off; copy it again or build it again");
}

/// Why this is no shared library for this processor; empty when it is one.
std::string wrong_sort(const Elf64_Ehdr& header) {
  if (header.e_ident[EI_CLASS] != ELFCLASS64) return "it is not a 64-bit library, as this program needs it";
  if (header.e_ident[EI_DATA] != our_byte_order) return "it is a library for another byte order than this program's";
  if (header.e_machine != our_machine) {
    return "it is a library for another processor (ELF machine " + std::to_string(header.e_machine) +
           ", this program needs " + std::to_string(our_machine) + ")";
  }
  if (header.e_type != ET_DYN)
    return "it is an ELF file, but no shared library (ELF type " + std::to_string(header.e_type) + ")";
  if (header.e_phnum == 0 || header.e_phentsize != sizeof(Elf64_Phdr)) return "its ELF header names no segments";
  if (header.e_shnum != 0 && header.e_shentsize != sizeof(Elf64_Shdr)) return "its ELF header is damaged";
  return {};
}

bool segments_lie_within(const ByteSource& file, const Elf64_Ehdr& header) {
  const auto segments = read_table<Elf64_Phdr>(file, header.e_phoff, header.e_phnum);
  return segments && std::all_of(segments->begin(), segments->end(), [&](const Elf64_Phdr& segment) {
           return lies_within(file, segment.p_offset, segment.p_filesz);
         });
}

bool is_stamp_section(const Elf64_Shdr& section, std::string_view names) {
  const std::string_view wanted(plugin_stamp_section, std::strlen(plugin_stamp_section) + 1);  // with its zero
  return section.sh_type == SHT_PROGBITS && section.sh_name < names.size() &&
         names.substr(section.sh_name, wanted.size()) == wanted;
}

FoundStamp copy_of(const ByteSource& file, const Elf64_Shdr& section) {
  if (!lies_within(file, section.sh_offset, section.sh_size)) return cut_off(file, "its stamp");
  if (section.sh_size < part_needed_of_stamp) return refused("its stamp is too short to hold an ABI number");
  std::array<std::byte, sizeof(PluginStamp)> bytes{};
  const auto length = static_cast<std::size_t>(std::min<std::uint64_t>(section.sh_size, bytes.size()));
  if (!file.read(section.sh_offset, std::span(bytes).first(length))) return cut_off(file, "its stamp");
  PluginStamp stamp{};
  std::memcpy(&stamp, bytes.data(), sizeof(stamp));
  return {stamp, {}};
}

FoundStamp search_sections(const ByteSource& file, const Elf64_Ehdr& header) {
  const auto sections = read_table<Elf64_Shdr>(file, header.e_shoff, header.e_shnum);
  if (!sections) return cut_off(file, "its table of sections");
  if (header.e_shstrndx < sections->size()) {
    const Elf64_Shdr& of_names = (*sections)[header.e_shstrndx];
    if (of_names.sh_size > longest_section_names) return refused("the names of its sections are damaged");
    const auto names = read_table<char>(file, of_names.sh_offset, of_names.sh_size);
    if (!names) return cut_off(file, "the names of its sections");
    for (const Elf64_Shdr& section : *sections)
      if (is_stamp_section(section, {names->data(), names->size()})) return copy_of(file, section);
  }
  return refused("it is a shared library without an ohmwright stamp (section " + std::string(plugin_stamp_section) +
                 "), so no plugin; build it with ohmwright_add_plugin");
}

}  // namespace

bool is_elf(const ByteSource& file) {
  std::array<char, SELFMAG> magic{};
  return file.read(0, std::as_writable_bytes(std::span(magic))) && std::memcmp(magic.data(), ELFMAG, SELFMAG) == 0;
}

FoundStamp read_elf_stamp(const ByteSource& file) {
  const auto headers = read_table<Elf64_Ehdr>(file, 0, 1);
  if (!headers) return cut_off(file, "its ELF header");
  const Elf64_Ehdr& header = headers->front();
  if (std::string why = wrong_sort(header); !why.empty()) return refused(std::move(why));
  if (!segments_lie_within(file, header)) return cut_off(file, "one of its segments");
  return search_sections(file, header);
}

}  // namespace ohmwright
