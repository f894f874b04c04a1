#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// "a heater", "an igniter": a word of an English message with its article, by its first letter.
inline std::string with_article(std::string_view word) {
  const bool vowel = !word.empty() && std::string_view("aeio").find(word.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + std::string(word);
}

}  // namespace ohmwright
