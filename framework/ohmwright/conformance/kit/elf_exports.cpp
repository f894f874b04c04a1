#include <algorithm>
#include <elf.h>
#include <string_view>

#include <ohmwright/conformance/kit/elf_exports.hpp>
#include <ohmwright/plugin/elf_stamp.hpp>
#include <ohmwright/plugin/elf_tables.hpp>

namespace ohmwright {

namespace {

bool is_defined_for_others(const Elf64_Sym& symbol) {
  const unsigned binding = ELF64_ST_BIND(symbol.st_info);
  const bool for_others = binding == STB_GLOBAL || binding == STB_WEAK || binding == STB_GNU_UNIQUE;
  return for_others && symbol.st_shndx != SHN_UNDEF && ELF64_ST_VISIBILITY(symbol.st_other) != STV_HIDDEN;
}

std::optional<std::vector<std::string>> names_in(const ByteSource& file, const Elf64_Shdr& symbols,
                                                 const Elf64_Shdr& strings) {
  const auto rows = read_table<Elf64_Sym>(file, symbols.sh_offset, symbols.sh_size / sizeof(Elf64_Sym));
  const auto names = read_table<char>(file, strings.sh_offset, strings.sh_size);
  if (!rows || !names) return std::nullopt;
  const std::string_view all(names->data(), names->size());
  std::vector<std::string> exported;
  for (const Elf64_Sym& symbol : *rows) {
    if (!is_defined_for_others(symbol)) continue;
    if (symbol.st_name >= all.size()) return std::nullopt;
    const std::string_view rest = all.substr(symbol.st_name);
    exported.emplace_back(rest.substr(0, rest.find('\0')));
  }
  std::sort(exported.begin(), exported.end());
  return exported;
}

}  // namespace

std::optional<std::vector<std::string>> elf_exports(const ByteSource& file) {
  if (!is_elf(file)) return std::nullopt;
  const auto headers = read_table<Elf64_Ehdr>(file, 0, 1);
  if (!headers || headers->front().e_ident[EI_CLASS] != ELFCLASS64 ||
      headers->front().e_shentsize != sizeof(Elf64_Shdr))
    return std::nullopt;
  const auto sections = read_table<Elf64_Shdr>(file, headers->front().e_shoff, headers->front().e_shnum);
  if (!sections) return std::nullopt;
  for (const Elf64_Shdr& section : *sections)
    if (section.sh_type == SHT_DYNSYM && section.sh_link < sections->size())
      return names_in(file, section, (*sections)[section.sh_link]);
  return std::nullopt;
}

}  // namespace ohmwright
