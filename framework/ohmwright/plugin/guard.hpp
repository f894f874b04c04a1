#pragma once

#include <optional>
#include <string>
#include <utility>

namespace ohmwright {

/// What the exception being handled says, copied into memory of the program. Call it inside a catch block only.
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
