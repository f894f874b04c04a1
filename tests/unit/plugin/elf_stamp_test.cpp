#include <cstring>
#include <elf.h>
#include <random>
#include <utility>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/stamp_reader.hpp>

#include "plugin_folder.hpp"

namespace ohmwright {
namespace {

using testing::HasSubstr;

const std::vector<std::byte>& good_library() {
  static const std::vector<std::byte> bytes = test::bytes_of(test::fixture("good"));
  return bytes;
}

FoundStamp read(std::span<const std::byte> bytes) { return read_stamp(MemoryBytes(bytes)); }

/// The refusal of the good library after `change` was made to its ELF header.
template <class Change>
std::string refusal_after(Change change) {
  std::vector<std::byte> bytes = good_library();
  Elf64_Ehdr header{};
  std::memcpy(&header, bytes.data(), sizeof(header));
  change(header);
  std::memcpy(bytes.data(), &header, sizeof(header));
  return read(bytes).refusal;
}

TEST(ElfStamp, IsCopiedOutOfALibraryWithoutLoadingIt) {
  const FoundStamp found = read(good_library());
  ASSERT_TRUE(found.stamp.has_value()) << found.refusal;
  EXPECT_STREQ(found.stamp->magic, "ohmwright-stamp");
  EXPECT_EQ(found.stamp->size, sizeof(PluginStamp));
  EXPECT_EQ(found.stamp->abi, plugin_abi);
  EXPECT_STREQ(found.stamp->build_tag, OHMWRIGHT_BUILD_TAG);
  EXPECT_STREQ(found.stamp->kinds, "good-part\twell made part");
}

TEST(ElfStamp, ALibraryCutOffAtAnyLengthIsRefused) {
  const std::span<const std::byte> whole = good_library();
  constexpr std::size_t ends = 4096;  // every length near the two ends, where the tables are, a sample between
  for (std::size_t length = 0; length < whole.size();
       length += length < ends || length + ends > whole.size() ? 1 : 61) {
    const FoundStamp found = read(whole.first(length));
    ASSERT_FALSE(found.stamp.has_value()) << "cut off after " << length << " of " << whole.size() << " bytes";
    ASSERT_FALSE(found.refusal.empty());
  }
}

TEST(ElfStamp, ACutOffLibrarySaysSoWithTheWayOn) {
  EXPECT_EQ(read(std::span(good_library()).first(5000)).refusal,
            "the file ends after 5000 bytes, before the end of one of its segments: it was cut off; copy it again or "
            "build it again");
  EXPECT_EQ(read(std::span(good_library()).first(good_library().size() - 1)).refusal,
            "the file ends after " + std::to_string(good_library().size() - 1) +
                " bytes, before the end of its table of sections: it was cut off; copy it again or build it again");
}

TEST(ElfStamp, NoFlippedBitMakesTheReaderFail) {
  std::vector<std::byte> bytes = good_library();
  const auto flip = [&](std::size_t bit) { bytes[bit / 8] ^= std::byte{1} << (bit % 8); };
  const auto try_bit = [&](std::size_t bit) {
    flip(bit);
    const FoundStamp found = read(bytes);
    EXPECT_NE(found.stamp.has_value(), !found.refusal.empty());
    flip(bit);
  };
  Elf64_Ehdr header{};
  std::memcpy(&header, bytes.data(), sizeof(header));
  const std::size_t segments_end = header.e_phoff + header.e_phnum * sizeof(Elf64_Phdr);
  for (std::size_t bit = 0; bit < segments_end * 8; ++bit) try_bit(bit);
  for (std::size_t bit = header.e_shoff * 8; bit < bytes.size() * 8; ++bit) try_bit(bit);
}

TEST(ElfStamp, NoGarbageMakesTheReaderFail) {
  std::mt19937_64 random(20240229);
  std::vector<std::byte> bytes = good_library();
  for (int round = 0; round < 20000; ++round) {
    std::vector<std::pair<std::size_t, std::byte>> before;
    const std::size_t changes = 1 + random() % 40;
    for (std::size_t i = 0; i < changes; ++i) {
      // Half of them in the ELF header, where they do most.
      const std::size_t place = random() % 2 == 0 ? 4 + random() % 60 : random() % bytes.size();
      before.emplace(before.begin(), place, bytes[place]);
      bytes[place] = static_cast<std::byte>(random() % 256);
    }
    const FoundStamp found = read(bytes);
    EXPECT_NE(found.stamp.has_value(), !found.refusal.empty());
    for (const auto& [place, byte] : before) bytes[place] = byte;
  }
}

TEST(ElfStamp, TellsWhatElseTheFileIs) {
  const std::string text = "#!/bin/sh\nexit 0\n";
  EXPECT_EQ(read(std::as_bytes(std::span(text.data(), text.size()))).refusal,
            "it is not a shared library (it does not begin as an ELF file)");
  EXPECT_EQ(read({}).refusal, "it is not a shared library (it does not begin as an ELF file)");
  EXPECT_EQ(refusal_after([](Elf64_Ehdr& header) { header.e_ident[EI_CLASS] = ELFCLASS32; }),
            "it is not a 64-bit library, as this program needs it");
  EXPECT_EQ(refusal_after([](Elf64_Ehdr& header) { header.e_ident[EI_DATA] ^= 3; }),
            "it is a library for another byte order than this program's");
  EXPECT_THAT(refusal_after([](Elf64_Ehdr& header) { header.e_machine = EM_MIPS; }),
              HasSubstr("it is a library for another processor (ELF machine 8, this program needs "));
  EXPECT_EQ(refusal_after([](Elf64_Ehdr& header) { header.e_type = ET_REL; }),
            "it is an ELF file, but no shared library (ELF type 1)");
  EXPECT_EQ(refusal_after([](Elf64_Ehdr& header) { header.e_phnum = 0; }), "its ELF header names no segments");
  EXPECT_EQ(refusal_after([](Elf64_Ehdr& header) { header.e_shnum = 0; }),
            "it is a shared library without an ohmwright stamp (section .ohmwright_stamp), so no plugin; build it with "
            "ohmwright_add_plugin");
}

TEST(ElfStamp, OffsetsNearTheEndOfTheNumbersDoNotWrapAround) {
  const auto far_away = [](Elf64_Ehdr& header) { header.e_phoff = ~std::uint64_t{0} - 8; };
  EXPECT_THAT(refusal_after(far_away), HasSubstr("before the end of one of its segments"));
  const auto sections_far_away = [](Elf64_Ehdr& header) { header.e_shoff = ~std::uint64_t{0} - 8; };
  EXPECT_THAT(refusal_after(sections_far_away), HasSubstr("before the end of its table of sections"));
}

}  // namespace
}  // namespace ohmwright
