#include <ostream>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include <ohmwright/document/write_file.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>
#include <ohmwright/plugin/trust.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "plugin/actions.hpp"

namespace ohmwright::cli {

namespace {

std::filesystem::path list_file(const Environment& environment) {
  std::filesystem::path file = allow_list_file(environment.locations);
  if (file.empty())
    throw InputError("there is no place for the list of allowed plugins; set HOME or XDG_CONFIG_HOME to a folder");
  return file;
}

void keep(const AllowList& list, const std::filesystem::path& file) {
  std::error_code error;
  std::filesystem::create_directories(file.parent_path(), error);
  if (error) throw InputError("cannot make the folder " + shell_word(file.parent_path()) + ": " + error.message());
  std::filesystem::permissions(file.parent_path(),
                               std::filesystem::perms::group_write | std::filesystem::perms::others_write,
                               std::filesystem::perm_options::remove, error);
  write_file_atomically(file.string(), list.text());
  std::filesystem::permissions(file, std::filesystem::perms::group_write | std::filesystem::perms::others_write,
                               std::filesystem::perm_options::remove, error);
}

/// The file as it is now, its bytes held fast: what is hashed is what was looked at.
AllowedPlugin entry_of(const std::filesystem::path& path, ::uid_t user) {
  ExaminedFile examined = examine_file(path, user);
  if (!examined.file.descriptor.is_open()) throw PluginError(path, std::move(examined.distrust));
  examined.file.descriptor = sealed_copy(examined.file);
  const FileBytes bytes(examined.file.descriptor.number(), examined.file.size);
  const FoundPlugin found =
      is_named_as_kind_file(path) ? read_kind_file(bytes, examined.file) : read_plugin(bytes, examined.file);
  AllowedPlugin entry{sha256_of(bytes), printable(examined.file.path.string()), {}};
  for (const StampedKind& kind : found.kinds) entry.kinds.push_back(kind.id);
  return entry;
}

void print(const AllowedPlugin& entry, Environment& environment) {
  std::string kinds;
  for (const std::string& kind : entry.kinds) kinds += (kinds.empty() ? "" : ", ") + printable(kind);
  environment.out << entry.sha256 << "  " << printable(entry.name) << (kinds.empty() ? "" : " (" + kinds + ")") << '\n';
}

}  // namespace

int allow_plugin(const Arguments& arguments, Environment& environment) {
  const std::filesystem::path file = list_file(environment);
  AllowList list = environment.search.options.allowed;
  const AllowedPlugin entry = entry_of(arguments.operands.at(1), environment.search.user);
  list.allow(entry);
  keep(list, file);
  print(entry, environment);
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("These bytes are taken from now on, whoever owns the file or can write to it. A file changed "
                         "by one byte is not. Everything else is checked as ever: ohmwright plugin inspect {file}"),
          {{"file", shell_word(arguments.operands.at(1))}}),
      environment.page.width);
  return exit_done;
}

int revoke_plugin(const Arguments& arguments, Environment& environment) {
  const std::filesystem::path file = list_file(environment);
  AllowList list = environment.search.options.allowed;
  const std::string& what = arguments.operands.at(1);
  std::vector<AllowedPlugin> taken = list.revoke(what);
  std::error_code error;
  if (taken.empty()) taken = list.revoke(printable(std::filesystem::weakly_canonical(what, error).string()));
  if (taken.empty())
    throw InputError("nothing that is allowed has the SHA-256, file or kind " + ohmwright::quoted(what) +
                     "; ohmwright plugin allowed lists what is");
  keep(list, file);
  for (const AllowedPlugin& entry : taken) print(entry, environment);
  return exit_done;
}

int list_allowed_plugins(const Arguments& /*arguments*/, Environment& environment) {
  const Sentences say{UnitPreferences{}};
  for (const AllowedPlugin& entry : environment.search.options.allowed.entries()) print(entry, environment);
  if (environment.search.options.allowed.empty())
    environment.out << say(OHMWRIGHT_TEXT("nothing is on the list of allowed plugins")) << '\n';
  return exit_done;
}

}  // namespace ohmwright::cli
