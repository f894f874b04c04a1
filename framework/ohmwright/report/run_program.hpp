#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// Output of a program that ran to a good end.
///
/// Runs `arguments[0]` (looked up in PATH) without a shell: `input` goes to its standard input, its standard output
/// comes back, its standard error is dropped. Empty if it is not there, fails, is killed, or writes more than 16 MB; it
/// is killed after 20 seconds.
std::optional<std::string> run_program(const std::vector<std::string>& arguments, std::string_view input);

}  // namespace ohmwright
