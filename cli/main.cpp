#include <algorithm>
#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <libintl.h>
#include <optional>
#include <string>
#include <string_view>
#include <sys/ioctl.h>
#include <unistd.h>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/appliance_words.hpp>

#include "command_line.hpp"
#include "ending.hpp"
#include "environment.hpp"
#include "exit_codes.hpp"
#include "help.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

std::optional<std::string> from_environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::nullopt : std::optional<std::string>(value);
}

/// Where the user's own files are kept, by the XDG base directory specification.
std::filesystem::path own_settings() {
  if (const auto folder = from_environment("XDG_CONFIG_HOME"); folder && folder->starts_with('/'))
    return std::filesystem::path(*folder) / "ohmwright";
  if (const auto home = from_environment("HOME"); home && home->starts_with('/'))
    return std::filesystem::path(*home) / ".config" / "ohmwright";
  return {};
}

/// The program's own files lie beside it: PREFIX/bin/ohmwright, PREFIX/lib/ohmwright, PREFIX/share/ohmwright.
Locations own_locations() {
  const std::filesystem::path prefix = std::filesystem::read_symlink("/proc/self/exe").parent_path().parent_path();
  const std::filesystem::path share = prefix / "share" / "ohmwright";
  return {prefix / OHMWRIGHT_LIBDIR / "ohmwright" / "plugins",
          share / "schemas",
          share / "meters",
          share / "appliances",
          prefix / "share" / "locale",
          prefix / OHMWRIGHT_LIBDIR / "ohmwright" / "ohmwright-plugin-worker",
          share / "templates",
          prefix,
          own_settings()};
}

/// The value of --language, looked for before the words are understood, so that refusals too speak it.
std::optional<std::string> language_among(const std::vector<std::string>& words) {
  constexpr std::string_view option = "--language";
  std::optional<std::string> language;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string_view word = words[i];
    if (word == option && i + 1 < words.size()) language = words[i + 1];
    if (word.size() > option.size() && word.substr(0, option.size()) == option && word[option.size()] == '=')
      language = word.substr(option.size() + 1);
  }
  return language;
}

/// Bare systems have no locale but C.UTF-8, and gettext looks catalogues up by LANGUAGE there; numbers stay in the C
/// locale, since every file and message of ours has a decimal point.
void set_language(const std::optional<std::string>& asked_for, const Locations& locations) {
  std::optional<std::string> language = asked_for;
  for (const char* variable : {"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"})
    if (!language || language->empty()) language = from_environment(variable);
  if (language) ::setenv("LANGUAGE", language->c_str(), 1);
  ::unsetenv("LC_ALL");  // it would win over the two categories below
  std::setlocale(LC_CTYPE, "C.UTF-8");
  std::setlocale(LC_MESSAGES, "C.UTF-8");
  for (const char* domain : {framework_text_domain, appliance_text_domain}) {
    ::bindtextdomain(domain, locations.translations.c_str());
    ::bind_textdomain_codeset(domain, "UTF-8");
  }
}

/// A number of columns of up to four digits, or nothing.
std::optional<int> width_in(const std::string& text) {
  const bool digits = !text.empty() && text.size() < 5 &&
                      std::all_of(text.begin(), text.end(), [](unsigned char c) { return std::isdigit(c) != 0; });
  return digits ? std::optional<int>(std::stoi(text)) : std::nullopt;
}

int chosen_width(const Arguments& arguments) {
  constexpr int narrowest = 20;
  constexpr int usual = 80;
  if (arguments.has("--width")) {
    const std::string text = arguments.value("--width");
    const std::optional<int> width = width_in(text);
    if (!width || *width < narrowest)
      throw InputError("--width takes a number of columns from 20 to 9999, got " + ohmwright::quoted(text));
    return *width;
  }
  if (const std::optional<std::string> columns = from_environment("COLUMNS")) {
    const std::optional<int> width = width_in(*columns);
    if (width && *width >= narrowest) return *width;
  }
  ::winsize size{};
  if (::isatty(STDOUT_FILENO) == 1 && ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col >= narrowest)
    return size.ws_col;
  return usual;
}

bool wants_colour(const Arguments& arguments) {
  const std::string when = arguments.value("--colour", "auto");
  if (when != "auto") return when == "always";
  const std::optional<std::string> refused = from_environment("NO_COLOR");
  return (!refused || refused->empty()) && ::isatty(STDOUT_FILENO) == 1;
}

/// The permitted plugins, and whether nothing else from outside the installation is taken.
AllowList allowed_plugins(const Locations& locations, ::uid_t user) {
  AllowList list = read_allow_list(allow_list_file(locations), user);
  const std::string only = from_environment("OHMWRIGHT_ONLY_ALLOWED_PLUGINS").value_or("");
  if (!only.empty() && only != "1")
    throw InputError("OHMWRIGHT_ONLY_ALLOWED_PLUGINS takes 1, or is not set, got " + ohmwright::quoted(only));
  if (!only.empty()) list.make_the_only_way();
  return list;
}

PluginSearch search_for_plugins(const Arguments& arguments, const Locations& locations) {
  std::vector<std::filesystem::path> from_options;
  const auto found = arguments.options.find("--plugins");
  if (found != arguments.options.end()) from_options.assign(found->second.begin(), found->second.end());
  const std::optional<std::string> search_path = from_environment("OHMWRIGHT_PLUGIN_PATH");
  const ::uid_t user = ::geteuid();
  return {plugin_folders(locations.plugins, search_path, from_options),
          user,
          {.allowed = allowed_plugins(locations, user), .worker = WorkerSettings{locations.worker}}};
}

int run(const std::vector<std::string>& words) {
  const std::vector<VerbSpec> verbs = all_verbs();
  const Locations locations = own_locations();
  set_language(language_among(words), locations);
  if (words.size() == 1 && words[0] == "--version") {
    std::cout << "ohmwright " OHMWRIGHT_VERSION "\n";
    return exit_done;
  }
  const Invocation invocation = parse_command_line(verbs, words);
  const PageStyle page{chosen_width(invocation.arguments), wants_colour(invocation.arguments)};
  const Sentences sentences{UnitPreferences{}};
  if (invocation.verb == nullptr) {
    std::cout << program_help(verbs, sentences, page);
    return words.empty() ? exit_refused : exit_done;
  }
  if (invocation.arguments.has("--help")) {
    const ActionSpec* action = action_of(*invocation.verb, invocation.arguments);
    std::cout << (action == nullptr ? verb_help(*invocation.verb, sentences, page)
                                    : action_help(*invocation.verb, *action, sentences, page));
    return exit_done;
  }
  const PluginSearch search = search_for_plugins(invocation.arguments, locations);
  const Registry registry(search.folders, search.user, search.options);
  Environment environment{std::cout, std::cerr, locations, search, registry, page};
  return invocation.verb->run(invocation.arguments, environment);
}

}  // namespace

}  // namespace ohmwright::cli

int main(int argc, char** argv) {
  using namespace ohmwright::cli;
  keep_standard_files();
  return ending_of([&] { return flushed(run({argv + std::min(argc, 1), argv + argc})); }, std::cerr);
}
