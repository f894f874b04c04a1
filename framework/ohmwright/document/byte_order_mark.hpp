#pragma once

#include <string_view>

namespace ohmwright {

/// What some programs write before UTF-8 text; it is no part of the text, and every reader of files skips it.
inline constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace ohmwright
