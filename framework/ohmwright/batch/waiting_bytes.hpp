#pragma once

#include <cstddef>
#include <memory>
#include <span>
#include <string_view>

namespace ohmwright::batch {

/// Bytes that were read and wait for their turn: taken from the front, read on at the end, in memory that is used again
/// and, unlike that of a string, not written over with noughts before the system writes into it.
class WaitingBytes {
 public:
  std::string_view text() const { return {memory_.get() + first_, end_ - first_}; }
  std::size_t size() const { return end_ - first_; }
  bool empty() const { return first_ == end_; }

  /// Takes bytes from the front; at most `size()`.
  void take(std::size_t count) { first_ += count; }
  void clear() { first_ = end_ = 0; }

  /// Room for `count` bytes behind the last one, to be filled; what waits may move.
  std::span<char> room_for(std::size_t count);
  /// So many bytes of that room were filled.
  void add(std::size_t count) { end_ += count; }

 private:
  std::unique_ptr<char[]> memory_;  // NOLINT(cppcoreguidelines-avoid-c-arrays, modernize-avoid-c-arrays): not filled
  std::size_t capacity_ = 0;
  std::size_t first_ = 0;
  std::size_t end_ = 0;
};

}  // namespace ohmwright::batch
