#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace ohmwright::cycles {

/// Where the bytes of a log come from.
class ByteSource {
 public:
  ByteSource() = default;
  virtual ~ByteSource() = default;
  ByteSource(const ByteSource&) = delete;
  ByteSource& operator=(const ByteSource&) = delete;

  /// Reads at most `room.size()` bytes into `room` and gives how many; 0 only at the end. Throws DocumentError when the
  /// system cannot read on.
  virtual std::size_t read(std::span<char> room) = 0;

  /// Why the bytes ended before their own end mark, as the id of a finding: "compressed-log-cut",
  /// "compressed-log-damaged".
  virtual std::optional<std::string_view> ended_early() const { return std::nullopt; }
};

/// The bytes of a file, or of standard input for "-"; what is compressed by gzip comes decompressed, UTF-16 comes as
/// UTF-8. Throws DocumentError that names the file: missing, a folder, unreadable, compressed more than once.
std::unique_ptr<ByteSource> open_log(const std::string& path);

/// The same for a text in memory, which must outlive the source; at most `piece` bytes come at a time.
std::unique_ptr<ByteSource> log_in_memory(std::string_view bytes, std::size_t piece = 65536);

}  // namespace ohmwright::cycles
