#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/plugin/file_descriptor.hpp>

namespace ohmwright {

/// Why a line did not come.
enum class NoLine {
  ended,     ///< the other end was closed
  late,      ///< not within the time
  too_long,  ///< more bytes than a line may have
};

/// One end of the line between the program and a worker: lines of JSON, either way.
class WorkerChannel {
 public:
  explicit WorkerChannel(FileDescriptor end) : end_(std::move(end)) {}

  /// Sends a line; false when the other end does not take it all within `longest`.
  bool send(std::string_view line, std::chrono::milliseconds longest);

  /// The next line without its end, waited for no longer than `longest` (a negative time: for ever).
  std::optional<std::string> receive(std::chrono::milliseconds longest, std::size_t longest_line, NoLine& why);

 private:
  FileDescriptor end_;
  std::string read_;  ///< past the last line taken
};

}  // namespace ohmwright
