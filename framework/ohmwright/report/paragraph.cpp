#include <cwchar>

#include <ohmwright/report/paragraph.hpp>

namespace ohmwright {

int columns_of(std::string_view text) {
  int columns = 0;
  std::mbstate_t state{};
  while (!text.empty()) {
    if (text.front() >= ' ' && text.front() <= '~') {  // one column in every locale, and nearly all of what there is
      text.remove_prefix(1);
      ++columns;
      continue;
    }
    wchar_t character = 0;
    const std::size_t bytes = std::mbrtowc(&character, text.data(), text.size(), &state);
    if (bytes == 0 || bytes > text.size()) {  // no UTF-8, or a locale that has none: one column a byte
      state = {};
      text.remove_prefix(1);
      ++columns;
      continue;
    }
    const int width = ::wcwidth(character);
    columns += width > 0 ? width : 0;
    text.remove_prefix(bytes);
  }
  return columns;
}

std::string with_plain_spaces(std::string_view text) {
  std::string plain;
  for (std::size_t at = text.find(unbroken_space); at != std::string_view::npos; at = text.find(unbroken_space)) {
    plain.append(text.substr(0, at)).append(" ");
    text.remove_prefix(at + unbroken_space.size());
  }
  return plain.append(text);
}

std::string paragraph(std::string_view text, int width, std::string_view first, std::string_view rest) {
  std::string page(first);
  int column = columns_of(first);
  bool line_is_empty = true;
  while (!text.empty()) {
    const std::size_t start = text.find_first_not_of(" \n");
    if (start == std::string_view::npos) break;
    text.remove_prefix(start);
    const std::string_view word = text.substr(0, text.find_first_of(" \n"));
    const int columns = columns_of(word);
    if (!line_is_empty && column + 1 + columns > width) {
      page.append("\n").append(rest);
      column = columns_of(rest);
      line_is_empty = true;
    }
    if (!line_is_empty) page += ' ';
    column += columns + (line_is_empty ? 0 : 1);
    page += with_plain_spaces(word);
    line_is_empty = false;
    text.remove_prefix(word.size());
  }
  return page + '\n';
}

}  // namespace ohmwright
