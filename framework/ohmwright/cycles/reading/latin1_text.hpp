#pragma once

#include <string>
#include <string_view>

namespace ohmwright::cycles {

/// `text` as UTF-8: as it is where it is that; else its bytes are taken for ISO 8859-1, in which spreadsheets write
/// "\u00B0C" where they do not write UTF-8. What is no character there becomes U+FFFD.
std::string as_utf8(std::string_view text);

/// The same with plain blanks for those that keep words together or are narrow (U+00A0, U+2009, U+202F), as
/// spreadsheets and phones write them before AM and between thousands.
std::string with_plain_blanks(std::string_view text);

}  // namespace ohmwright::cycles
