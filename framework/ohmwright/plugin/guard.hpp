#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace ohmwright {

/// Text of a plugin, or of whoever speaks about one, as a message may hold it: on one line, nothing in it that could
/// move a cursor, hide or reverse text (as `quoted` writes it), at most `longest` code points, then "...".
std::string one_line(std::string_view text, std::size_t longest = 1000);

/// What the exception being handled says, as `one_line`, copied into memory of the program. Call it inside a catch
/// block only.
std::string text_of_current_exception();

/// Runs a call into a plugin. Whatever it throws stays behind: the result is its text, or nothing when it returned.
///
/// The exception is an object of the plugin; it is gone before this returns, while the library is still held.
template <class Call>
std::optional<std::string> guarded(Call&& call) {
  try {
    std::forward<Call>(call)();
    return std::nullopt;
  } catch (...) {
    return text_of_current_exception();
  }
}

}  // namespace ohmwright
