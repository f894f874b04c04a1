#include <filesystem>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/sentences.hpp>
#include <ohmwright/verdict/refused_work.hpp>

#include "exit_codes.hpp"
#include "plugin/actions.hpp"
#include "plugin/template.hpp"

namespace ohmwright::cli {

namespace {

/// What to build, in three commands that work as printed.
std::vector<std::string> next_commands(const std::filesystem::path& folder, const std::string& kind, bool without_code,
                                       const Environment& environment) {
  const std::string program = shell_word(environment.locations.prefix / "bin" / "ohmwright");
  if (without_code)
    return {program + " kinds " + kind + " --plugins " + shell_word(folder),
            program + " vectors " + kind + " --plugins " + shell_word(folder),
            program + " check " + kind + " 100.2ohm --lead-off --ratings generic --plugins " + shell_word(folder)};
  const std::string build = shell_word(folder / "build");
  return {"cmake -S " + shell_word(folder) + " -B " + build +
              " -DCMAKE_PREFIX_PATH=" + shell_word(environment.locations.prefix),
          "cmake --build " + build, program + " vectors " + kind + " --plugins " + build};
}

/// A name that another kind has would make the new one a refused plugin.
void refuse_taken_name(const std::string& kind, const Environment& environment) {
  for (const FoundPlugin& plugin : environment.registry.plugins()) {
    for (const StampedKind& other : plugin.kinds) {
      bool taken = spoken_name(other.id) == spoken_name(kind);
      for (const std::string& alias : other.aliases) taken = taken || spoken_name(alias) == spoken_name(kind);
      if (taken)
        throw InputError("the name " + ohmwright::quoted(kind) + " is taken by the kind " +
                         ohmwright::quoted(other.id) + " of " + shell_word(plugin.path) + "; choose another (--kind)");
    }
  }
}

}  // namespace

int new_plugin(const Arguments& arguments, Environment& environment) {
  const std::filesystem::path folder = arguments.operands.at(1);
  const std::string kind =
      arguments.value("--kind", (folder.has_filename() ? folder : folder.parent_path()).filename().string());
  const bool without_code = arguments.has("--without-code");
  if (const std::string_view reason = refused_work(kind); !reason.empty())
    throw InputError(ohmwright::quoted(kind) + ": " + std::string(reason));
  if (!is_kind_id(kind))
    throw InputError("a kind is named with a-z, 0-9 and -, beginning with a letter, got " + ohmwright::quoted(kind) +
                     "; name it with --kind, the folder may be called as you like");
  if (without_code && arguments.has("--like"))
    throw InputError("--like chooses among kinds with C++; leave it out beside --without-code");
  refuse_taken_name(kind, environment);
  const std::filesystem::path& templates = environment.locations.templates;
  const std::vector<std::filesystem::path> sources =
      without_code
          ? std::vector<std::filesystem::path>{templates / "kind-file"}
          : std::vector<std::filesystem::path>{templates / "common", templates / arguments.value("--like", "resistor")};
  const std::vector<TemplateFile> files = filled_template(sources, kind);
  write_new_folder(folder, files);

  const Sentences say{UnitPreferences{}};
  for (const TemplateFile& file : files) environment.out << shell_word(folder / file.path) << '\n';
  environment.out << '\n' << say(OHMWRIGHT_TEXT("Build it, load it, judge its vectors:")) << '\n';
  for (const std::string& command : next_commands(folder, kind, without_code, environment))
    environment.out << "    " << command << '\n';
  const std::filesystem::path tested = without_code ? folder : folder / "build" / kind;
  environment.out << '\n'
                  << paragraph(say(OHMWRIGHT_TEXT("Then open kind and vectors, and put in what is true of your part. "
                                                  "Each figure that nobody has looked up yet says PLACEHOLDER, and "
                                                  "this names what is left:")),
                               environment.page.width)
                  << "    " << shell_word(environment.locations.prefix / "bin" / "ohmwright") << " plugin test "
                  << shell_word(tested) << '\n';
  return exit_done;
}

}  // namespace ohmwright::cli
