#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Text from outside as a message may show it: in double quotes, at most `longest` code points, then `..."`.
///
/// Nothing that could move a cursor, hide or reverse text gets through: control characters, invisible and
/// direction-changing code points come as `\n`, `\x1b`, `\u202e`, bytes that are no UTF-8 as `\xff`.
/// Callers with a std::string write ohmwright::quoted, since std::quoted is found too.
OHMWRIGHT_CORE_API std::string quoted(std::string_view text, std::size_t longest = 60);

/// The same for a text that stands in a message without quotes and whole, such as the path in "FILE:LINE: ...": plain
/// text comes back as it is, everything else escaped.
OHMWRIGHT_CORE_API std::string printable(std::string_view text);

/// A message of several lines, made fit for a terminal as a whole: line feeds stay, everything else as in `printable`.
/// The last gate before a terminal; whoever makes a message quotes what came from outside, since a line feed in a
/// file's name could otherwise feign a second message.
OHMWRIGHT_CORE_API std::string printable_lines(std::string_view text);

}  // namespace ohmwright
