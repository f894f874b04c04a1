#include <array>
#include <cerrno>
#include <cstring>
#include <ostream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <utility>
#include <vector>

#include <ohmwright/conformance/kit/kit.hpp>
#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/plugin/worker/worker_kind.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "plugin_actions.hpp"

namespace ohmwright::cli {

namespace {

namespace fs = std::filesystem;

constexpr unsigned longest_trial = 300;  // s, of one kind; the heaviest shipped one takes a few

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

std::string check_lines(const KitCheck& check, const Sentences& say, int width) {
  const std::string sign = check.to_mend.empty() ? "  ok    " : "  MEND  ";
  std::string text = paragraph(say(check.title), width, sign, "        ");
  constexpr std::size_t most_shown = 12;
  for (std::size_t i = 0; i < check.to_mend.size() && i < most_shown; ++i)
    text += paragraph(one_line(check.to_mend[i]), width, "        - ", "          ");
  if (check.to_mend.size() > most_shown)
    text += paragraph(
        say(OHMWRIGHT_TEXT("and {count} more"), {{"count", std::to_string(check.to_mend.size() - most_shown)}}), width,
        "        - ", "          ");
  return text;
}

/// Writes all of it to the standard output, past every buffer: whoever runs next may end this process.
void write_out(std::string_view text) {
  while (!text.empty()) {
    const ::ssize_t count = ::write(STDOUT_FILENO, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
}

/// The same kind where it will run when it is found outside the installation.
KitCheck check_in_worker(const LoadedKind& here, const FoundPlugin& plugin, const MeterSet& meters,
                         const Environment& environment, std::vector<std::string>& not_held) {
  KitCheck check{OHMWRIGHT_TEXT("in a worker process it judges alike"), {}};
  try {
    const WorkerKinds there = kinds_in_worker(plugin, environment.search.user, environment.search.options.allowed,
                                              WorkerSettings{environment.locations.worker});
    not_held = there.not_held;
    for (const LoadedKind& kind : there.kinds)
      if (kind.descriptor().id == here.descriptor().id) check.to_mend = differing_verdicts(here, kind, meters);
  } catch (const PluginError& error) {
    check.to_mend = error.reasons();
  }
  return check;
}

/// Tries one kind out, in the child: prints as it goes, and names each check in `diary` before it begins.
int try_out_kind(const Registry& registry, const FoundPlugin& plugin, const std::string& kind, const MeterSet& meters,
                 int diary, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  bool mend = false;
  const auto begins = [&](std::string_view title) {
    const std::string line = say(title) + '\n';
    if (::write(diary, line.data(), line.size()) < 0) ::_exit(exit_internal);
  };
  begins(OHMWRIGHT_TEXT("it can be loaded"));
  try {
    const LoadedKind& loaded = registry.kind(kind);
    write_out(check_lines({OHMWRIGHT_TEXT("it can be loaded"), {}}, say, environment.page.width));
    const auto ends = [&](const KitCheck& check) {
      mend = mend || !check.to_mend.empty();
      write_out(check_lines(check, say, environment.page.width));
    };
    run_kit(loaded, meters, {begins, ends});
    if (plugin.kind_file == nullptr) {
      std::vector<std::string> not_held;
      begins(OHMWRIGHT_TEXT("in a worker process it judges alike"));
      ends(check_in_worker(loaded, plugin, meters, environment, not_held));
      for (const std::string& missing : not_held)
        write_out(
            paragraph(say(OHMWRIGHT_TEXT("on this machine a worker holds less back: {what}"), {{"what", missing}}),
                      environment.page.width, "  note  ", "        "));
    }
  } catch (const PluginError& error) {
    write_out(check_lines({OHMWRIGHT_TEXT("it can be loaded"), error.reasons()}, say, environment.page.width));
    return exit_plugin_refused;
  }
  return mend ? exit_out_of_limits : exit_done;
}

std::string all_of(int descriptor) {
  std::string text;
  std::array<char, 4096> buffer{};
  for (;;) {
    const ::ssize_t count = ::read(descriptor, buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return text;
    text.append(buffer.data(), static_cast<std::size_t>(count));
  }
}

std::string last_line(const std::string& text) {
  if (text.size() < 2) return text;
  const std::size_t begin = text.rfind('\n', text.size() - 2);
  return text.substr(begin == std::string::npos ? 0 : begin + 1, text.size() - 1 - (begin + 1));
}

/// How the child ended, where it did not come to its own end.
std::string how_it_ended(int status) {
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM)
    return "it was still at it after " + std::to_string(longest_trial) + " s";
  if (WIFSIGNALED(status))
    return "it ended the process by signal " + std::to_string(WTERMSIG(status)) + " (" + ::strsignal(WTERMSIG(status)) +
           ")";  // NOLINT(concurrency-mt-unsafe): one thread
  return "it ended the process with code " + std::to_string(WEXITSTATUS(status));
}

/// Tries a kind out in a child: what the plugin does there costs this trial and no more.
int try_out_in_child(const Registry& registry, const FoundPlugin& plugin, const std::string& kind,
                     const MeterSet& meters, Environment& environment) {
  environment.out.flush();
  std::array<int, 2> ends{};
  if (::pipe(ends.data()) != 0) throw Error(ErrorCategory::internal, "no pipe for the trial of a plugin");
  FileDescriptor diary_in(ends[0]);
  FileDescriptor diary_out(ends[1]);
  const ::pid_t child = ::fork();
  if (child < 0) throw Error(ErrorCategory::internal, "no process for the trial of a plugin");
  if (child == 0) {
    ::alarm(longest_trial);
    int code = exit_internal;
    try {
      code = try_out_kind(registry, plugin, kind, meters, diary_out.number(), environment);
    } catch (const std::exception& error) {
      write_out(std::string("        - ") + one_line(error.what()) + '\n');
    }
    const char done = '\n';
    (void)!::write(diary_out.number(), &done, 1);  // an empty last line: it came to its own end
    ::_exit(code);
  }
  diary_out = FileDescriptor();
  const std::string diary = all_of(diary_in.number());
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  const bool own_end = WIFEXITED(status) && diary.size() >= 2 && diary.compare(diary.size() - 2, 2, "\n\n") == 0;
  if (own_end) return WEXITSTATUS(status);
  environment.out << paragraph(last_line(diary), environment.page.width, "  MEND  ", "        ")
                  << paragraph(how_it_ended(status), environment.page.width, "        - ", "          ");
  return exit_out_of_limits;
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
