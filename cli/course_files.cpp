#include "course_files.hpp"

#include <algorithm>
#include <cstdlib>
#include <fcntl.h>
#include <termios.h>
#include <unistd.h>

#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {

namespace {

/// The terminal itself, whatever standard input and output are; its echo comes back when this goes.
class QuietTerminal {
 public:
  QuietTerminal() : descriptor_(::open("/dev/tty", O_RDWR | O_CLOEXEC)) {
    if (descriptor_ < 0 || ::tcgetattr(descriptor_, &before_) != 0)
      throw InputError(
          "no passphrase: there is no terminal to ask at; name a file with --passphrase-file FILE, or set "
          "OHMWRIGHT_PASSPHRASE");
    ::termios quiet = before_;
    quiet.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    ::tcsetattr(descriptor_, TCSAFLUSH, &quiet);
  }
  ~QuietTerminal() {
    ::tcsetattr(descriptor_, TCSAFLUSH, &before_);
    ::close(descriptor_);
  }
  QuietTerminal(const QuietTerminal&) = delete;
  QuietTerminal& operator=(const QuietTerminal&) = delete;

  std::string ask(const std::string& prompt) const {
    say(prompt);
    std::string line;
    for (char letter = 0; ::read(descriptor_, &letter, 1) == 1 && letter != '\n';) line += letter;
    say("\n");
    return line;
  }

 private:
  void say(const std::string& words) const {
    [[maybe_unused]] const ssize_t written = ::write(descriptor_, words.data(), words.size());
  }

  int descriptor_;
  ::termios before_{};
};

std::string first_line(std::string text) {
  text.resize(std::min(text.find_first_of("\r\n"), text.size()));
  return text;
}

}  // namespace

std::string course_passphrase(const Arguments& arguments, Environment& /*environment*/, bool is_new) {
  if (arguments.has("--passphrase-file")) return first_line(text_of_file(arguments.value("--passphrase-file")));
  if (const char* of_environment = std::getenv("OHMWRIGHT_PASSPHRASE"); of_environment != nullptr)
    return of_environment;
  const QuietTerminal terminal;
  std::string typed = terminal.ask("Passphrase of the key: ");
  if (is_new && terminal.ask("The same again: ") != typed)
    throw InputError("the two passphrases differ; nothing was made, begin again");
  return typed;
}

std::string text_of_file(const std::string& path) {
  constexpr std::size_t largest = std::size_t{256} << 20U;  // a key of 200 exercises is a tenth of it
  return read_source(path, largest);
}

const std::string& course_operand(const Arguments& arguments, std::size_t place, const std::string& missing) {
  if (arguments.operands.size() <= place)
    throw InputError("missing: " + missing + "; ohmwright course --help shows what belongs where");
  return arguments.operands[place];
}

}  // namespace ohmwright::cli
