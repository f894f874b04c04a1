#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>

namespace ohmwright::batch {

/// Puts a record together from many short pieces and hands it to a string in few large ones, so that the string's
/// memory is not looked after piece by piece.
class RecordText {
 public:
  // NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): pieces_ is filled as text comes
  explicit RecordText(std::string& out) : out_(out) {}
  RecordText(const RecordText&) = delete;
  RecordText& operator=(const RecordText&) = delete;
  ~RecordText() = default;

  /// A literal, whose length is known where it is written.
  template <std::size_t size>
  // NOLINTNEXTLINE(cppcoreguidelines-avoid-c-arrays, modernize-avoid-c-arrays): a literal is one, and brings its length
  void add(const char (&literal)[size]) {
    static_assert(size <= sizeof(pieces_));
    if (size > pieces_.size() - length_) hand_over();
    std::memcpy(pieces_.data() + length_, literal, size - 1);
    length_ += size - 1;
  }
  void add(std::string_view text) {
    if (text.size() > pieces_.size() - length_) return add_past_room(text);
    std::memcpy(pieces_.data() + length_, text.data(), text.size());
    length_ += text.size();
  }
  /// The shortest form that reads back to the number.
  void add_number(double number);
  void add_number(std::uint64_t number);
  /// A text as JSON, quotes around it. The text must be UTF-8.
  void add_json(std::string_view text);
  /// Appends to the string what it does not have yet: the last thing to do with a record.
  void hand_over();

 private:
  template <class Number>
  void add_shortest(Number number);
  void add_past_room(std::string_view text);

  std::string& out_;
  std::size_t length_ = 0;
  std::array<char, 2048> pieces_;
};

}  // namespace ohmwright::batch
