#include <algorithm>
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
#include "output.hpp"
#include "plugin/actions.hpp"
#include "plugin/trial.hpp"

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

/// A plugin and what is tested with it: the ratings and the vectors beside it.
void add_files_of(const fs::path& plugin, std::vector<fs::path>& files) {
  files.push_back(plugin);
  for (const char* folder : {"ratings", "vectors"}) {
    std::error_code error;
    for (const fs::directory_entry& file : fs::directory_iterator(plugin.parent_path() / folder, error))
      files.push_back(file.path());
  }
}

MeterSet meters_for_trial(const Environment& environment) {
  std::vector<Meter> meters{chosen_meter(environment, "")};
  for (const std::string& name : names_in_folder(environment.locations.meters.string()))
    if (name != meters.front().name) meters.push_back(chosen_meter(environment, name));
  return MeterSet(std::move(meters));
}

/// Tells of trials as they go, or keeps them for a report.
class TrialTeller {
 public:
  TrialTeller(bool as_json, bool is_kept, Environment& environment)
      : as_json_(as_json), is_kept_(is_kept), environment_(environment) {}

  void refused(const RefusedPlugin& plugin) {
    head(shell_word(plugin.path));
    PluginTrial trial{
        plugin.path, {}, {{"loading", OHMWRIGHT_TEXT("it can be loaded"), plugin.reasons}}, {}, exit_plugin_refused};
    tell(check_lines(trial.checks.front(), say_, environment_.page.width));
    trials_.push_back(std::move(trial));
  }
  void try_out(const Registry& registry, const FoundPlugin& plugin, const std::string& kind, const MeterSet& meters) {
    head(kind + " (" + shell_word(plugin.path) + ")");
    trials_.push_back(
        try_out_in_child(registry, plugin, kind, meters,
                         {[this](const TriedCheck& check) { tell(check_lines(check, say_, environment_.page.width)); },
                          [this](const std::string& note) { tell(note_lines(note, environment_.page.width)); }},
                         environment_));
  }
  bool is_empty() const { return trials_.empty(); }

  /// The end of the page, or the whole report. Gives the exit code.
  int finish(const Arguments& arguments) {
    int code = exit_done;
    for (const PluginTrial& trial : trials_) code = worse_ending(code, trial.code);
    if (as_json_) {
      deliver(trials_json(trials_, say_), arguments, environment_);
      return code;
    }
    tell('\n' +
         (code == exit_done ? say_(OHMWRIGHT_TEXT("Nothing to mend."))
                            : say_(OHMWRIGHT_TEXT("There is something to mend."))) +
         '\n');
    if (is_kept_) deliver(text_, arguments, environment_);
    return code;
  }

 private:
  void head(const std::string& title) { tell(title + '\n'); }
  void tell(const std::string& text) {
    if (as_json_) return;
    text_ += text;
    if (!is_kept_) environment_.out << text << std::flush;
  }

  bool as_json_;
  bool is_kept_;  ///< for the file of --out
  Environment& environment_;
  Sentences say_{UnitPreferences{}};
  std::vector<PluginTrial> trials_;
  std::string text_;
};

/// A search in which the plugins that are pointed at meet no other build of themselves; kind files still need their
/// reader.
Registry registry_of_target_alone(const Target& target, const PluginSearch& search, const Environment& environment) {
  return {{environment.locations.plugins / "kind-file", target.folder()}, search.user, search.options};
}

}  // namespace

int test_plugin(const Arguments& arguments, Environment& environment) {
  const Target target(arguments.operands.at(1));
  PluginSearch search = environment.search;
  search.options.worker.reset();  // each kind is tried in a child of its own
  search.folders.push_back(target.folder());
  const Registry registry(search.folders, search.user, search.options);
  const Registry alone = registry_of_target_alone(target, search, environment);
  const auto is_another_build = [&](const RefusedPlugin& refused) {
    return !refused.another_build_of.empty() && target.is_or_holds(refused.path) &&
           !target.is_or_holds(refused.another_build_of);
  };
  std::vector<fs::path> read;
  for (const RefusedPlugin& refused : registry.refused())
    if (target.is_or_holds(refused.path)) add_files_of(refused.path, read);
  for (const FoundPlugin& plugin : registry.plugins())
    if (target.holds(plugin.path)) add_files_of(plugin.path, read);
  refuse_to_overwrite(arguments, "--out", read);
  const MeterSet meters = meters_for_trial(environment);
  TrialTeller teller(arguments.value("--format") == "json", arguments.has("--out"), environment);
  const auto try_out_one = [&](const Registry& among, const FoundPlugin& plugin) {
    for (const StampedKind& kind : plugin.kinds) teller.try_out(among, plugin, kind.id, meters);
  };
  for (const RefusedPlugin& refused : registry.refused()) {
    if (!target.is_or_holds(refused.path)) continue;
    const auto& others = alone.plugins();
    const auto found = std::find_if(others.begin(), others.end(),
                                    [&](const FoundPlugin& plugin) { return plugin.path == refused.path; });
    if (is_another_build(refused) && found != others.end())
      try_out_one(alone, *found);
    else
      teller.refused(refused);
  }
  for (const FoundPlugin& plugin : registry.plugins())
    if (target.holds(plugin.path)) try_out_one(registry, plugin);
  if (teller.is_empty())
    throw InputError("there is no plugin in " + shell_word(target.path()) +
                     " or one folder down; a library ends in .ohmplug, a kind file in .kind.json");
  return teller.finish(arguments);
}

}  // namespace ohmwright::cli
