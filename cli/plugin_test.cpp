#include <filesystem>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>

#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "plugin_actions.hpp"
#include "plugin_trial.hpp"

namespace ohmwright::cli {

namespace {

namespace fs = std::filesystem;

/// What the user pointed at: a file, or a folder with plugins in it or one folder down.
class Target {
 public:
  explicit Target(const fs::path& named) {
    std::error_code error;
    path_ = fs::canonical(named, error);
    if (error) throw InputError(shell_word(named) + " cannot be tested: " + error.message());
    is_folder_ = fs::is_directory(path_, error);
  }
  fs::path folder() const { return is_folder_ ? path_ : path_.parent_path(); }
  bool holds(const fs::path& plugin) const {
    if (!is_folder_) return plugin == path_;
    return plugin.parent_path() == path_ || plugin.parent_path().parent_path() == path_;
  }
  bool is_or_holds(const fs::path& refused) const {
    std::error_code error;
    const fs::path canonical = fs::weakly_canonical(refused, error);
    return holds(canonical) || canonical == folder();
  }
  const fs::path& path() const { return path_; }

 private:
  fs::path path_;
  bool is_folder_ = false;
};

MeterSet meters_for_trial(const Environment& environment) {
  std::vector<Meter> meters{chosen_meter(environment, "")};
  for (const std::string& name : names_in_folder(environment.locations.meters.string()))
    if (name != meters.front().name) meters.push_back(chosen_meter(environment, name));
  return MeterSet(std::move(meters));
}

/// The worst of two endings of trials: refused before to be mended before fine.
int worse(int a, int b) {
  const auto rank = [](int code) { return code == exit_plugin_refused ? 2 : (code == exit_done ? 0 : 1); };
  return rank(a) >= rank(b) ? a : b;
}

}  // namespace

int test_plugin(const Arguments& arguments, Environment& environment) {
  const Target target(arguments.operands.at(1));
  PluginSearch search = environment.search;
  search.options.worker.reset();  // each kind is tried in a child of its own
  search.folders.push_back(target.folder());
  const Registry registry(search.folders, search.user, search.options);
  const Sentences say{UnitPreferences{}};
  const MeterSet meters = meters_for_trial(environment);
  int code = exit_done;
  std::size_t tried = 0;
  for (const RefusedPlugin& refused : registry.refused()) {
    if (!target.is_or_holds(refused.path)) continue;
    ++tried;
    environment.out << shell_word(refused.path) << '\n'
                    << check_lines({OHMWRIGHT_TEXT("it can be loaded"), refused.reasons}, say, environment.page.width);
    code = worse(code, exit_plugin_refused);
  }
  for (const FoundPlugin& plugin : registry.plugins()) {
    if (!target.holds(plugin.path)) continue;
    for (const StampedKind& kind : plugin.kinds) {
      ++tried;
      environment.out << kind.id << " (" << shell_word(plugin.path) << ")\n";
      code = worse(code, try_out_in_child(registry, plugin, kind.id, meters, environment));
    }
  }
  if (tried == 0)
    throw InputError("there is no plugin in " + shell_word(target.path()) +
                     " or one folder down; a library ends in .ohmplug, a kind file in .kind.json");
  environment.out << '\n'
                  << (code == exit_done ? say(OHMWRIGHT_TEXT("Nothing to mend."))
                                        : say(OHMWRIGHT_TEXT("There is something to mend.")))
                  << '\n';
  return code;
}

}  // namespace ohmwright::cli
