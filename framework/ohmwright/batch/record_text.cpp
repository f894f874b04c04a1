#include <cstdint>

#include <fmt/compile.h>

#include <ohmwright/batch/record_text.hpp>

namespace ohmwright::batch {

namespace {

bool needs_escape(char c) { return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\'; }

/// Whether JSON escapes anything in the text: eight bytes at a time, since nearly all texts have nothing of it.
/// Source: the tests for a byte that is zero, or less than n, in a word (H. S. Warren, Hacker's Delight, 6-1, from
/// memory).
bool any_needs_escape(std::string_view text) {
  constexpr std::uint64_t ones = 0x0101010101010101U;
  constexpr std::uint64_t highest_bits = 0x80U * ones;
  const auto any_is_zero = [](std::uint64_t word) { return (word - ones) & ~word & highest_bits; };
  std::size_t at = 0;
  for (; text.size() - at >= sizeof(std::uint64_t); at += sizeof(std::uint64_t)) {
    std::uint64_t word = 0;
    std::memcpy(&word, text.data() + at, sizeof word);
    const std::uint64_t any_is_control = (word - 0x20U * ones) & ~word & highest_bits;
    if ((any_is_control | any_is_zero(word ^ ('"' * ones)) | any_is_zero(word ^ ('\\' * ones))) != 0) return true;
  }
  for (; at < text.size(); ++at)
    if (needs_escape(text[at])) return true;
  return false;
}

}  // namespace

template <class Number>
void RecordText::add_shortest(Number number) {
  constexpr std::size_t longest_number = 32;
  if (pieces_.size() - length_ < longest_number) hand_over();
  char* const begin = pieces_.data() + length_;
  length_ += static_cast<std::size_t>(fmt::format_to(begin, FMT_COMPILE("{}"), number) - begin);
}

void RecordText::add_number(double number) { add_shortest(number); }
void RecordText::add_number(std::uint64_t number) { add_shortest(number); }

void RecordText::add_json(std::string_view text) {
  add("\"");
  if (!any_needs_escape(text)) {
    add(text);
  } else {
    for (const char c : text) {
      if (!needs_escape(c)) {
        add({&c, 1});
      } else if (c == '"' || c == '\\') {
        add("\\");
        add({&c, 1});
      } else {
        std::array<char, 8> escaped{};
        const char* const end = fmt::format_to(escaped.data(), FMT_COMPILE("\\u{:04x}"), static_cast<unsigned>(c));
        add({escaped.data(), static_cast<std::size_t>(end - escaped.data())});
      }
    }
  }
  add("\"");
}

void RecordText::hand_over() {
  out_.append(pieces_.data(), length_);
  length_ = 0;
}

void RecordText::add_past_room(std::string_view text) {
  hand_over();
  if (text.size() > pieces_.size())
    out_.append(text);
  else
    add(text);
}

}  // namespace ohmwright::batch
