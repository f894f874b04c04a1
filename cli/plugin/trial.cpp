#include "plugin/trial.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <ostream>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>
#include <utility>

#include <ohmwright/conformance/kit/kit_checks.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/worker/process_end.hpp>
#include <ohmwright/plugin/worker/worker_kind.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>

#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

constexpr unsigned longest_check = 120;  // s, of one check; the slowest of a shipped kind takes a few

KitCheck loading_check() { return {"loading", OHMWRIGHT_TEXT("it can be loaded"), {}}; }

KitCheck worker_check() { return {"worker", OHMWRIGHT_TEXT("in a worker process it judges alike"), {}}; }

/// The same kind where it will run when it is found outside the installation.
KitCheck check_in_worker(const LoadedKind& here, const FoundPlugin& plugin, const MeterSet& meters,
                         const Environment& environment, std::vector<std::string>& not_held) {
  KitCheck check = worker_check();
  try {
    const std::vector<LoadedKind> there =
        kinds_in_worker(plugin, environment.search.user, environment.search.options.allowed,
                        WorkerSettings{environment.locations.worker});
    for (const LoadedKind& kind : there) {
      not_held = kind.not_held_back();
      if (kind.descriptor().id == here.descriptor().id) check.to_mend = differing_verdicts(here, kind, meters);
    }
  } catch (const PluginError& error) {
    check.to_mend = error.reasons();
  }
  return check;
}

/// Tries one kind out, in the child: names each check in `diary` before it begins.
int try_out_kind(const Registry& registry, const FoundPlugin& plugin, const std::string& kind, const MeterSet& meters,
                 const DiaryWriter& diary, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  bool mend = false;
  const auto begins = [&](const KitCheck& check) {
    ::alarm(longest_check);
    diary.begins(check);
  };
  const auto ends = [&](const KitCheck& check) {
    mend = mend || !check.to_mend.empty();
    diary.ends(check);
  };
  KitCheck loading = loading_check();
  begins(loading);
  try {
    const LoadedKind& loaded = registry.kind(kind);
    ends(loading);
    run_kit(loaded, meters, {begins, ends});
    if (plugin.kind_file == nullptr) {
      std::vector<std::string> not_held;
      begins(worker_check());
      ends(check_in_worker(loaded, plugin, meters, environment, not_held));
      for (const std::string& missing : not_held)
        diary.notes(say(OHMWRIGHT_TEXT("on this machine a worker holds less back: {what}"), {{"what", missing}}));
    }
  } catch (const PluginError& error) {
    loading.to_mend = error.reasons();
    ends(loading);
    return exit_plugin_refused;
  }
  return mend ? exit_out_of_limits : exit_done;
}

/// The child: its standard output is the standard error, so that a report on the output stays one.
[[noreturn]] void be_the_child(const Registry& registry, const FoundPlugin& plugin, const std::string& kind,
                               const MeterSet& meters, int diary_descriptor, const Environment& environment) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // a plugin that does not come back must not outlive who tries it
  (void)::dup2(STDERR_FILENO, STDOUT_FILENO);
  const DiaryWriter diary(diary_descriptor);
  int code = exit_internal;
  try {
    code = try_out_kind(registry, plugin, kind, meters, diary, environment);
  } catch (const std::exception& error) {
    diary.notes(error.what());
  }
  diary.is_done();
  ::_exit(code);
}

/// How the child ended, where it did not come to its own end.
std::string how_it_ended(int status) {
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM)
    return "it was still at it after " + std::to_string(longest_check) + " s";
  return process_end_text(status);
}

}  // namespace

PluginTrial try_out_in_child(const Registry& registry, const FoundPlugin& plugin, const std::string& kind,
                             const MeterSet& meters, const TrialListener& listener, Environment& environment) {
  environment.out.flush();
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw Error(ErrorCategory::internal, "no pipe for the trial of a plugin");
  FileDescriptor diary_in(ends[0]);
  FileDescriptor diary_out(ends[1]);
  const ::pid_t child = ::fork();
  if (child < 0) throw Error(ErrorCategory::internal, "no process for the trial of a plugin");
  if (child == 0) be_the_child(registry, plugin, kind, meters, diary_out.number(), environment);
  diary_out = FileDescriptor();

  PluginTrial trial{plugin.path, kind, {}, {}, exit_done};
  const Diary diary = read_diary(diary_in.number(), {[&](const TriedCheck& check) {
                                                       trial.checks.push_back(check);
                                                       listener.check(check);
                                                     },
                                                     [&](const std::string& note) {
                                                       trial.notes.push_back(note);
                                                       listener.note(note);
                                                     }});
  diary_in = FileDescriptor();  // who still writes into it ends
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (diary.is_done && WIFEXITED(status)) {
    trial.code = WEXITSTATUS(status);
    return trial;
  }
  trial.code = exit_out_of_limits;
  trial.checks.push_back(check_that_was_ended(diary, how_it_ended(status)));
  listener.check(trial.checks.back());
  return trial;
}

}  // namespace ohmwright::cli
