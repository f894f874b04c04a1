#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// `word` as a person may paste it into a command: as it is where no shell takes a letter of it for something else,
/// else in single quotes.
std::string shell_word(std::string_view word);

}  // namespace ohmwright
