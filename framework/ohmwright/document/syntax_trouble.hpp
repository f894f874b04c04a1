#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace ohmwright {

/// Why the parser stopped, in words that help whoever wrote the file: what was found, what is expected.
///
/// `text` is the document, `offset` how far it was read, `last_token` and `library_text` what the JSON library said.
std::string describe_syntax_trouble(std::string_view text, std::size_t offset, std::string_view last_token,
                                    std::string_view library_text);

/// What shows, before parsing, that `text` is not what is `expected` at all: nothing in it, another encoding, not text.
/// Empty when fine.
std::string describe_foreign_content(std::string_view text, std::string_view expected = "a JSON document");

}  // namespace ohmwright
