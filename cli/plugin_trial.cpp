#include "plugin_trial.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <ostream>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

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

/// Tries one kind out, in the child: prints as it goes, and names each check in `diary` before it begins.
int try_out_kind(const Registry& registry, const FoundPlugin& plugin, const std::string& kind, const MeterSet& meters,
                 int diary, const Environment& environment) {
  const Sentences say{UnitPreferences{}};
  bool mend = false;
  const auto begins = [&](std::string_view title) {
    ::alarm(longest_check);
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
    return "it was still at it after " + std::to_string(longest_check) + " s";
  return process_end_text(status);
}

}  // namespace

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
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // a plugin that does not come back must not outlive who tries it
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

}  // namespace ohmwright::cli
