#include "course/files.hpp"

#include <algorithm>
#include <array>
#include <bsd/readpassphrase.h>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <system_error>

#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "output.hpp"

namespace ohmwright::cli {

namespace {

/// Typed at the terminal itself, whatever standard input and output are. The library keeps the echo off and gives it
/// back, also where Ctrl-C or Ctrl-Z comes in between. Throws InputError where there is no terminal, and for a line
/// that was broken off.
std::string typed_passphrase(const char* prompt) {
  std::array<char, 1024> line{};
  const char* const typed = ::readpassphrase(prompt, line.data(), line.size(), RPP_REQUIRE_TTY);
  const int trouble = errno;
  std::string passphrase = typed == nullptr ? std::string() : std::string(typed);
  ::explicit_bzero(line.data(), line.size());
  if (typed == nullptr && trouble == EINTR) throw InputError("no passphrase was given; nothing was done");
  if (typed == nullptr)
    throw InputError(
        "no passphrase: there is no terminal to ask at; name a file with --passphrase-file FILE, or set "
        "OHMWRIGHT_PASSPHRASE");
  if (passphrase.empty()) throw InputError("no passphrase was given; nothing was done");
  return passphrase;
}

/// Without the byte order mark that some editors put before it.
std::string first_line(std::string text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
  text.resize(std::min(text.find_first_of("\r\n"), text.size()));
  return text;
}

/// A record by its name, as the class hands it in; exercises and keys by what they begin with.
bool is_of_a_class(const std::filesystem::path& path) {
  std::error_code ignored;
  if (!std::filesystem::is_regular_file(path, ignored)) return false;
  if (path.extension() == ".record") return true;
  std::string begins(64, '\0');
  std::ifstream file(path, std::ios::binary);
  file.read(begins.data(), static_cast<std::streamsize>(begins.size()));
  return begins.find("\"exercise\":") != std::string::npos || begins.find("\"course_key\":") != std::string::npos;
}

}  // namespace

std::string course_passphrase(const Arguments& arguments, PassphraseFor use) {
  if (arguments.has("--passphrase-file")) return first_line(text_of_file(arguments.value("--passphrase-file")));
  if (const char* of_environment = std::getenv("OHMWRIGHT_PASSPHRASE"); of_environment != nullptr)
    return of_environment;
  std::string typed = typed_passphrase("Passphrase of the key: ");
  if (use == PassphraseFor::new_key && typed_passphrase("The same again: ") != typed)
    throw InputError("the two passphrases differ; nothing was made, begin again");
  return typed;
}

std::string text_of_file(const std::string& path) {
  constexpr std::size_t largest = std::size_t{256} << 20U;  // a key of 200 exercises is a tenth of it
  return read_source(path, largest);
}

void deliver_beside_the_class(const std::string& text, const Arguments& arguments, Environment& environment) {
  if (arguments.has("--out") && is_of_a_class(arguments.value("--out")))
    throw InputError("--out would overwrite " + ohmwright::quoted(arguments.value("--out")) +
                     ", an exercise, a record or a sealed key; choose another name");
  deliver(text, arguments, environment);
}

const std::string& course_operand(const Arguments& arguments, std::size_t place, const std::string& missing) {
  if (arguments.operands.size() <= place)
    throw InputError("missing: " + missing + "; ohmwright course --help shows what belongs where");
  return arguments.operands[place];
}

}  // namespace ohmwright::cli
