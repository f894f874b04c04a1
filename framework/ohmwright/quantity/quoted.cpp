#include <algorithm>
#include <array>

#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/utf8.hpp>

namespace ohmwright {

namespace {

struct CodeRange {
  char32_t first;
  char32_t last;
};

// Control characters, and what Unicode calls format characters that hide or turn text around (Cc, Cf, Zl, Zp).
constexpr std::array<CodeRange, 13> not_shown{{{0x00, 0x1F},
                                               {0x7F, 0x9F},
                                               {0xAD, 0xAD},
                                               {0x61C, 0x61C},
                                               {0x180E, 0x180E},
                                               {0x200B, 0x200F},
                                               {0x2028, 0x202E},
                                               {0x2060, 0x206F},
                                               {0xFE00, 0xFE0F},
                                               {0xFEFF, 0xFEFF},
                                               {0xFFF9, 0xFFFB},
                                               {0xE0000, 0xE0FFF},
                                               {0xF0000, 0x10FFFF}}};

bool is_shown(char32_t code) {
  return std::none_of(not_shown.begin(), not_shown.end(),
                      [code](CodeRange range) { return code >= range.first && code <= range.last; });
}

std::string hexadecimal(char32_t value, int digits) {
  std::string text;
  for (int digit = digits - 1; digit >= 0; --digit) {
    text += "0123456789abcdef"[(value >> (4U * static_cast<unsigned>(digit))) & 0xFU];
  }
  return text;
}

/// What is not shown, in the escapes of C.
std::string escaped(CodePoint point, std::string_view bytes) {
  if (point.value == CodePoint::not_a_code_point) {
    return "\\x" + hexadecimal(static_cast<unsigned char>(bytes.front()), 2);
  }
  switch (point.value) {
    case '\n':
      return "\\n";
    case '\r':
      return "\\r";
    case '\t':
      return "\\t";
    default:
      break;
  }
  if (is_shown(point.value)) return std::string(bytes);
  if (point.value < 0x80) return "\\x" + hexadecimal(point.value, 2);
  if (point.value < 0x10000) return "\\u" + hexadecimal(point.value, 4);
  return "\\U" + hexadecimal(point.value, 8);
}

/// Takes the first code point off `text` and puts it, shown or escaped, behind `out`.
void move_escaped(std::string_view& text, std::string& out) {
  if (text.front() >= ' ' && text.front() <= '~') {  // nearly all of what there is
    out += text.front();
    text.remove_prefix(1);
    return;
  }
  const CodePoint point = first_code_point(text);
  out += escaped(point, text.substr(0, point.bytes));
  text.remove_prefix(point.bytes);
}

}  // namespace

std::string quoted(std::string_view text, std::size_t longest) {
  std::string out = "\"";
  for (std::size_t shown = 0; !text.empty(); ++shown) {
    if (shown == longest) {
      out += "...";
      break;
    }
    if (text.front() == '"' || text.front() == '\\') out += '\\';
    move_escaped(text, out);
  }
  return out + '"';
}

std::string printable(std::string_view text) {
  std::string out;
  while (!text.empty()) move_escaped(text, out);
  return out;
}

std::string printable_lines(std::string_view text) {
  std::string out;
  for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
    out += printable(text.substr(0, end)) + '\n';
    text.remove_prefix(end + 1);
  }
  return out + printable(text);
}

}  // namespace ohmwright
