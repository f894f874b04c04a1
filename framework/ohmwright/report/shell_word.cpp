#include <algorithm>
#include <cctype>

#include <ohmwright/report/shell_word.hpp>

namespace ohmwright {

std::string shell_word(std::string_view word) {
  constexpr std::string_view harmless_marks = "._-+=/:@%,";
  const bool is_plain = !word.empty() && std::all_of(word.begin(), word.end(), [&](char letter) {
    return std::isalnum(static_cast<unsigned char>(letter)) != 0 ||
           harmless_marks.find(letter) != std::string_view::npos;
  });
  if (is_plain) return std::string(word);
  std::string quoted = "'";
  for (const char letter : word) quoted += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return quoted + "'";
}

}  // namespace ohmwright
