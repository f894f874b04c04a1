#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>

namespace ohmwright {

/// The bytes of a file, read at a place: memory in tests, an open file otherwise (`FileBytes`).
class ByteSource {
 public:
  ByteSource() = default;
  ByteSource(const ByteSource&) = delete;
  ByteSource(ByteSource&&) = delete;
  ByteSource& operator=(const ByteSource&) = delete;
  ByteSource& operator=(ByteSource&&) = delete;
  virtual ~ByteSource() = default;

  /// Number of bytes.
  virtual std::uint64_t size() const = 0;
  /// Fills `into` from `offset` on; false when not all of these bytes exist or can be read.
  virtual bool read(std::uint64_t offset, std::span<std::byte> into) const = 0;
};

/// Bytes that somebody else keeps in memory.
class MemoryBytes final : public ByteSource {
 public:
  explicit MemoryBytes(std::span<const std::byte> bytes) : bytes_(bytes) {}

  std::uint64_t size() const override { return bytes_.size(); }
  bool read(std::uint64_t offset, std::span<std::byte> into) const override {
    if (offset > bytes_.size() || into.size() > bytes_.size() - offset) return false;
    const std::span<const std::byte> from = bytes_.subspan(static_cast<std::size_t>(offset), into.size());
    std::copy(from.begin(), from.end(), into.begin());
    return true;
  }

 private:
  std::span<const std::byte> bytes_;
};

}  // namespace ohmwright
