#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include <ohmwright/batch/line_fields.hpp>

namespace ohmwright::batch {

/// Bytes that must be readable behind a line that `QuickLineReader` reads.
inline constexpr std::size_t bytes_behind_line = 64;

/// Whether the bytes are UTF-8 text.
bool is_utf8_text(std::string_view bytes);

/// A JSON text without the blanks between its parts, so that it stands in one line.
std::string json_in_one_line(std::string_view json);

/// Reads the usual lines of a batch fast: every field of theirs, so that nothing is taken which the strict parser would
/// refuse. One a thread.
class QuickLineReader {
 public:
  QuickLineReader();
  QuickLineReader(const QuickLineReader&) = delete;
  QuickLineReader& operator=(const QuickLineReader&) = delete;
  ~QuickLineReader();

  /// The fields of `line`, which `bytes_behind_line` readable bytes follow; views that hold until the next call. False
  /// where anything in it is not known here: then the strict parser decides, and `fields` mean nothing.
  bool read(std::string_view line, LineFields& fields);

 private:
  struct Parser;
  std::unique_ptr<Parser> parser_;
};

}  // namespace ohmwright::batch
