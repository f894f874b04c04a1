#include <algorithm>
#include <cctype>

#include <fmt/core.h>

#include <ohmwright/document/syntax_trouble.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

bool contains(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

bool closes_or_separates(char c) { return c == ',' || c == ':' || c == ']' || c == '}'; }

bool belongs_to_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_' || c == '.' || c == '+' || c == '-' ||
         static_cast<unsigned char>(c) >= 0x80;
}

/// The word around the character read last, or, when that belongs to none, the one that ends before it: the library
/// stops at the first letter that is wrong, or at the character behind a number or a literal that is cut short.
std::string_view word_at(std::string_view text, std::size_t offset) {
  std::size_t begin = offset > 0 ? offset - 1 : 0;
  const bool cut_short =
      begin > 0 && !belongs_to_word(text[begin]) && (is_blank(text[begin]) || closes_or_separates(text[begin]));
  if (cut_short) --begin;
  while (begin > 0 && belongs_to_word(text[begin]) && belongs_to_word(text[begin - 1])) --begin;
  std::size_t end = begin;
  while (end < text.size() && belongs_to_word(text[end])) ++end;
  return text.substr(begin, std::max<std::size_t>(end - begin, 1));
}

std::string_view without_quotes(std::string_view token) {
  if (token.size() >= 2 && token.front() == '"' && token.back() == '"') return token.substr(1, token.size() - 2);
  return token;
}

/// The last character before the one read last that is not blank; NUL at the beginning.
char before_last(std::string_view text, std::size_t offset) {
  std::size_t place = offset > 0 ? offset - 1 : 0;
  while (place > 0 && is_blank(text[place - 1])) --place;
  return place > 0 ? text[place - 1] : '\0';
}

/// The token that was not expected. Of numbers and texts the library tells all, of marks such as } more than all.
std::string_view unexpected_token(std::string_view text, std::size_t offset, std::string_view last_token,
                                  std::string_view library_text) {
  if (contains(library_text, "unexpected string literal")) return without_quotes(last_token);
  if (contains(library_text, "unexpected number literal")) return last_token;
  for (const char* word : {"unexpected true literal", "unexpected false literal", "unexpected null literal"})
    if (contains(library_text, word)) return word_at(text, offset);
  return text.substr(offset > 0 ? offset - 1 : 0, 1);
}

/// What the library says it expected, in the words used here.
std::string expected(std::string_view library_text) {
  constexpr std::string_view marker = "; expected ";
  const std::size_t place = library_text.rfind(marker);
  std::string_view what = place == std::string_view::npos ? "" : library_text.substr(place + marker.size());
  if (contains(library_text, "while parsing object key") || what == "string literal")
    return "a field name in double quotes";
  if (what == "end of input") return "nothing more";
  if (what.size() == 3 && what.front() == '\'') return ohmwright::quoted(what.substr(1, 1));
  return "a value";
}

std::string describe_word(std::string_view word, std::string_view library_text) {
  std::string lower;
  for (const char c : word) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const std::string_view unsigned_word =
      std::string_view(lower).substr(lower.front() == '-' || lower.front() == '+' ? 1 : 0);
  if (unsigned_word == "nan" || unsigned_word == "infinity" || unsigned_word == "inf")
    return fmt::format("found {}; a JSON number is finite, and a quantity is text such as \"11.0 kohm\"", word);
  if (lower == "true" || lower == "false" || lower == "null") return fmt::format("found {}; expected {}", word, lower);
  if (lower == "none") return fmt::format("found {}; expected null", word);
  const std::string found = ohmwright::quoted(word);
  if (word.front() == '\'' || word.substr(0, 2) == "\xE2\x80")
    return fmt::format("found {}; JSON text stands in straight double quotes", found);
  if (word.front() == '/' || word.front() == '#')
    return fmt::format("found {}; JSON has no comments, remove it", found);
  if (contains(library_text, "invalid number")) return fmt::format("{} is not a JSON number", found);
  if (contains(library_text, "while parsing object key"))
    return fmt::format("found {}; expected a field name in double quotes", found);
  return fmt::format("found {}; expected a value (text stands in double quotes)", found);
}

/// The byte that is wrong: the one read last, or the first of the character that it should have continued.
unsigned char wrong_byte(std::string_view text, std::size_t offset) {
  std::size_t place = offset > 0 ? offset - 1 : 0;
  if (static_cast<unsigned char>(text[place]) >= 0x80) return static_cast<unsigned char>(text[place]);
  const auto is_continuation = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; };
  while (place > 0 && is_continuation(text[place - 1])) --place;
  return static_cast<unsigned char>(text[place > 0 ? place - 1 : 0]);
}

std::string describe_text(std::string_view text, std::size_t offset, std::string_view library_text) {
  if (contains(library_text, "ill-formed UTF-8"))
    return fmt::format("byte 0x{:02X} is not UTF-8; save the file as UTF-8", wrong_byte(text, offset));
  if (contains(library_text, "missing closing quote") || contains(library_text, "U+000A"))
    return "a text without its closing quote on this line";
  constexpr std::string_view marker = "invalid string: ";
  const std::size_t begin = library_text.find(marker) + marker.size();
  const std::size_t end = library_text.find("; last read");
  return fmt::format("a text that JSON does not allow: {}", library_text.substr(begin, end - begin));
}

}  // namespace

std::string describe_foreign_content(std::string_view text, std::string_view expected) {
  const std::string wanted = "; expected " + std::string(expected);
  if (std::all_of(text.begin(), text.end(), is_blank)) return "is empty" + wanted;
  const std::string_view start = text.substr(0, 2);
  if (start == "\xFF\xFE" || start == "\xFE\xFF") return "is UTF-16 text; save the file as UTF-8";
  if (start == "\x1F\x8B" || start == "PK") return "is a compressed file" + wanted;
  if (text.find('\0') != std::string_view::npos) return "is not text: it holds NUL bytes" + wanted;
  return {};
}

std::string describe_syntax_trouble(std::string_view text, std::size_t offset, std::string_view last_token,
                                    std::string_view library_text) {
  if (contains(library_text, "number overflow"))
    return fmt::format("{} is too large for a number", ohmwright::quoted(last_token));
  if (contains(library_text, "invalid string")) return describe_text(text, offset, library_text);
  if (contains(library_text, "invalid literal") || contains(library_text, "invalid number"))
    return describe_word(word_at(text, offset), library_text);
  if (contains(library_text, "unexpected end of input"))
    return "the document ends too early; expected " + expected(library_text);

  const std::string_view token = unexpected_token(text, offset, last_token, library_text);
  const std::string found = ohmwright::quoted(token);
  const bool is_a_mark = token == "]" || token == "}" || token == ":" || token == ",";
  if ((token == "]" || token == "}") && before_last(text, offset) == ',')
    return "a comma before " + found + "; remove it";
  const bool inside =
      contains(library_text, "while parsing object -") || contains(library_text, "while parsing array -");
  if (inside && !is_a_mark) return fmt::format("found {}; a comma is missing before it", found);
  return fmt::format("found {}; expected {}", found, expected(library_text));
}

}  // namespace ohmwright
