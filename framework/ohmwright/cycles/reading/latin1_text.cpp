#include <ohmwright/cycles/reading/latin1_text.hpp>
#include <ohmwright/quantity/utf8.hpp>

namespace ohmwright::cycles {

namespace {

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const CodePoint first = first_code_point(text);
    if (first.value == CodePoint::not_a_code_point) return false;
    text.remove_prefix(first.bytes);
  }
  return true;
}

}  // namespace

std::string as_utf8(std::string_view text) {
  if (is_utf8(text)) return std::string(text);
  std::string utf8;
  for (const char one : text) {
    const auto byte = static_cast<unsigned char>(one);
    if (byte < 0x80U) {
      utf8 += one;
    } else if (byte < 0xA0U) {
      utf8 += "\xef\xbf\xbd";
    } else {
      utf8 += static_cast<char>(0xC0U | byte >> 6U);
      utf8 += static_cast<char>(0x80U | (byte & 0x3FU));
    }
  }
  return utf8;
}

std::string with_plain_blanks(std::string_view text) {
  std::string plain = as_utf8(text);
  for (const std::string_view blank : {"\u00A0", "\u2009", "\u202F"})
    for (std::size_t at = plain.find(blank); at != std::string::npos; at = plain.find(blank, at + 1))
      plain.replace(at, blank.size(), 1, ' ');
  return plain;
}

}  // namespace ohmwright::cycles
