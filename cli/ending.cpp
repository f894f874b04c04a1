#include "ending.hpp"

#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <exception>
#include <fcntl.h>
#include <iostream>
#include <poll.h>
#include <sstream>
#include <string>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/paragraph.hpp>

#include "exit_codes.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

/// Whether whoever read our output has stopped, as `head` does.
bool reader_has_gone() {
  ::pollfd output{STDOUT_FILENO, 0, 0};
  return ::poll(&output, 1, 0) == 1 && (static_cast<unsigned>(output.revents) & POLLERR) != 0;
}

/// Ends as the system ends a program that writes on: without a word.
[[noreturn]] void end_like_everybody() {
  std::signal(SIGPIPE, SIG_DFL);
  std::raise(SIGPIPE);
  std::_Exit(exit_refused);
}

int internal_error(std::string_view what, std::ostream& err) {
  err << "ohmwright: internal error: " << printable(what) << "; please report it with the words you typed\n";
  return exit_internal;
}

/// On a terminal the lines are broken between words; a file or a program gets each as one.
std::string refusal_lines(const std::string& message) {
  const std::string text = "ohmwright: " + message;
  ::winsize size{};
  constexpr int narrowest = 20;
  if (::isatty(STDERR_FILENO) != 1 || ::ioctl(STDERR_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col < narrowest)
    return text + '\n';
  std::string lines;
  std::istringstream all(text);
  for (std::string line; std::getline(all, line);) lines += paragraph(line, size.ws_col, "", "  ");
  return lines;
}

}  // namespace

void keep_standard_files() {
  std::signal(SIGPIPE, SIG_IGN);
  // Where one is closed, the next file that is opened would get its number, and what is printed would go into that
  // file.
  for (const int number : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (::fcntl(number, F_GETFD) != -1 || errno != EBADF) continue;
    // Standard output that was closed takes nothing, so that printing to it fails.
    const int opened = ::open("/dev/null", number == STDERR_FILENO ? O_WRONLY : O_RDONLY);
    if (opened >= 0 && opened != number) ::close(opened);
  }
}

int flushed(int code) {
  std::cout.flush();
  if (std::cout) return code;
  if (reader_has_gone()) end_like_everybody();
  std::cerr << "ohmwright: could not write to the standard output; is it closed, or the disk full?\n";
  return exit_refused;
}

int ending_of(const std::function<int()>& run, std::ostream& err) {
  try {
    return run();
  } catch (const Error& error) {
    std::cout.flush();
    err << refusal_lines(printable_lines(refusal_text(error)));
    return exit_code(error.category());
  } catch (const std::exception& error) {
    return internal_error(error.what(), err);
  } catch (...) {
    return internal_error("something was thrown that is no error", err);
  }
}

}  // namespace ohmwright::cli
