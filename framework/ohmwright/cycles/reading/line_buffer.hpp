#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/reading/byte_source.hpp>

namespace ohmwright::cycles {

/// Lines out of a byte source, in one buffer of fixed size.
class LineBuffer {
 public:
  static constexpr std::size_t head_bytes = 65536;
  static constexpr std::size_t longest_line = 65536;
  /// Bytes that may be read behind a line's end.
  static constexpr std::size_t slack = 64;

  explicit LineBuffer(std::unique_ptr<ByteSource> source);

  /// The whole lines among the first 64 KiB, without a byte order mark; taken by nobody.
  std::string_view head() const { return {data() + start_, head_end_ - start_}; }

  /// The next line without its "\n"; false at the end. The byte after it belongs to no number.
  bool next(const char*& begin, const char*& end) {
    while (true) {
      const char* const from = data() + start_;
      const char* const newline = find_newline(from);
      if (newline != nullptr) {
        begin = from;
        end = newline;
        start_ = static_cast<std::size_t>(newline - data()) + 1;
        ++line_;
        return true;
      }
      if (!refill()) return false;
    }
  }

  /// Number of the line given last, from 1, as it stands in the log.
  std::uint64_t line() const { return line_ > forward_lines_ ? backwards_from_ - line_ : line_; }
  std::uint64_t lines_given() const { return line_; }
  /// After `forward_lines` the lines come from the last of the log, `last_line`, to the first.
  void number_backwards(std::uint64_t forward_lines, std::uint64_t last_line) {
    forward_lines_ = forward_lines;
    backwards_from_ = last_line + forward_lines + 1;
  }
  /// The line given last ended with the log, not with a line end.
  bool last_line_was_open() const { return closed_by_us_ && start_ == filled_; }
  /// Lines longer than `longest_line` that were passed over since asked last.
  bool took_away_a_line() {
    const bool was = line_too_long_;
    line_too_long_ = false;
    return was;
  }
  const ByteSource& source() const { return *source_; }

 private:
  const char* data() const { return buffer_.data(); }
  const char* find_newline(const char* from) const;
  bool refill();
  void fill_once();

  std::unique_ptr<ByteSource> source_;
  std::vector<char> buffer_;
  std::size_t start_ = 0;
  std::size_t filled_ = 0;
  std::size_t head_end_ = 0;
  std::uint64_t line_ = 0;
  std::uint64_t forward_lines_ = std::numeric_limits<std::uint64_t>::max();
  std::uint64_t backwards_from_ = 0;
  bool at_end_ = false;
  bool closed_by_us_ = false;
  bool line_too_long_ = false;
  bool skips_ = false;
};

}  // namespace ohmwright::cycles
