#pragma once

#include <string>
#include <string_view>

namespace ohmwright {

/// How a page of text is laid out.
struct PageStyle {
  int width = 80;       ///< columns, at least 20
  bool colour = false;  ///< ANSI colours; never the only carrier of a meaning
};

/// Columns that UTF-8 text takes on a terminal (combining marks none, wide characters two).
int columns_of(std::string_view text);

/// A space that no line is broken at (U+00A0); `paragraph` prints it as a plain one, so that copied text can be typed
/// again.
inline constexpr std::string_view unbroken_space = "\u00a0";

/// `text` with plain spaces in place of unbroken ones.
std::string with_plain_spaces(std::string_view text);

/// `text` broken at spaces into lines of at most `width` columns: `first` starts the first line, `rest` the others.
/// A word that is longer than a line stands alone on one. Each line ends with a newline.
std::string paragraph(std::string_view text, int width, std::string_view first = "", std::string_view rest = "");

}  // namespace ohmwright
