#pragma once

#include <functional>
#include <iosfwd>

namespace ohmwright::cli {

/// Sees to it that standard input, output and error are open before any other file is, and that a write which nobody
/// reads is an error like others, told where it happens, rather than a signal.
void keep_standard_files();

/// `code`, when all that was printed has arrived; a full disk behind the standard output is no success. When whoever
/// read it has stopped, as `head` does, the process ends without a word, like every program.
int flushed(int code);

/// What `run` gives, or the exit code of what it throws, told on `err` in one line each: no control character of what
/// the message quotes reaches the terminal.
int ending_of(const std::function<int()>& run, std::ostream& err);

}  // namespace ohmwright::cli
