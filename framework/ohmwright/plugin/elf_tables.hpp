#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/plugin/byte_source.hpp>

namespace ohmwright {

/// Whether those bytes are in the file.
inline bool lies_within(const ByteSource& file, std::uint64_t offset, std::uint64_t size) {
  return offset <= file.size() && size <= file.size() - offset;
}

/// The records that stand there, or nothing where the file does not hold them all.
template <class Record>
std::optional<std::vector<Record>> read_table(const ByteSource& file, std::uint64_t offset, std::uint64_t count) {
  if (count > file.size() / sizeof(Record) + 1) return std::nullopt;
  if (!lies_within(file, offset, count * sizeof(Record))) return std::nullopt;  // before memory is asked for
  std::vector<Record> records(static_cast<std::size_t>(count));
  if (!file.read(offset, std::as_writable_bytes(std::span(records)))) return std::nullopt;
  return records;
}

}  // namespace ohmwright
