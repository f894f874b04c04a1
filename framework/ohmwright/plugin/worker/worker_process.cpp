#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <spawn.h>
#include <string>
#include <sys/socket.h>
#include <sys/wait.h>
#include <system_error>
#include <unistd.h>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/worker/answer_line.hpp>
#include <ohmwright/plugin/worker/process_end.hpp>
#include <ohmwright/plugin/worker/wire.hpp>
#include <ohmwright/plugin/worker/worker_process.hpp>
#include <ohmwright/plugin/worker/worker_side.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

using Wire = nlohmann::json;

[[noreturn]] void plugin_failed(std::string text) { throw Error(ErrorCategory::plugin, std::move(text)); }

std::string seconds_text(std::chrono::milliseconds time) {
  if (time.count() % 1000 != 0) return std::to_string(time.count()) + " ms";
  return std::to_string(time.count() / 1000) + " s";
}

/// Questions without an answer in time after which a plugin is asked no more.
constexpr int most_late = 3;

/// What of a plugin's words can be shown; anything that is no text is nothing.
std::string shown_text(const Wire& wire) { return wire.is_string() ? one_line(wire.get<std::string>()) : "nothing"; }

/// The attributes of a spawn, freed when left. The process gets a session of its own, and with it no terminal: one that
/// shares the user's can type commands into it, and what is typed there it could read.
class SpawnAttributes {
 public:
  SpawnAttributes() {
    ::posix_spawnattr_init(&attributes_);
    ::sigset_t none;
    ::sigemptyset(&none);
    ::posix_spawnattr_setsigmask(&attributes_, &none);
    ::posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETSID | POSIX_SPAWN_SETSIGMASK);
  }
  ~SpawnAttributes() { ::posix_spawnattr_destroy(&attributes_); }
  SpawnAttributes(const SpawnAttributes&) = delete;
  SpawnAttributes& operator=(const SpawnAttributes&) = delete;
  const ::posix_spawnattr_t* get() const { return &attributes_; }

 private:
  ::posix_spawnattr_t attributes_{};
};

/// The actions of a spawn, freed when left.
class SpawnActions {
 public:
  SpawnActions() { ::posix_spawn_file_actions_init(&actions_); }
  ~SpawnActions() { ::posix_spawn_file_actions_destroy(&actions_); }
  SpawnActions(const SpawnActions&) = delete;
  SpawnActions& operator=(const SpawnActions&) = delete;
  ::posix_spawn_file_actions_t* get() { return &actions_; }

 private:
  ::posix_spawn_file_actions_t actions_{};
};

}  // namespace

WorkerProcess::WorkerProcess(FoundPlugin plugin, FileDescriptor plugin_copy, WorkerSettings settings)
    : plugin_(std::move(plugin)), copy_(std::move(plugin_copy)), settings_(std::move(settings)) {}

WorkerProcess::~WorkerProcess() { end(); }

void WorkerProcess::spawn() {
  std::array<int, 2> ends{};
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends.data()) != 0)
    plugin_failed("no channel to a worker process: " + std::generic_category().message(errno));
  FileDescriptor ours(ends[0]);
  const FileDescriptor theirs(ends[1]);
  // Past all that the worker's own numbers could be, so that none of the copies below overwrites another.
  constexpr int out_of_the_way = 100;
  const FileDescriptor channel(::fcntl(theirs.number(), F_DUPFD_CLOEXEC, out_of_the_way));
  const FileDescriptor library(::fcntl(copy_.number(), F_DUPFD_CLOEXEC, out_of_the_way));
  SpawnActions actions;
  for (const int number : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
    ::posix_spawn_file_actions_addopen(actions.get(), number, "/dev/null", number == STDIN_FILENO ? O_RDONLY : O_WRONLY,
                                       0);
  ::posix_spawn_file_actions_adddup2(actions.get(), library.number(), worker_library_descriptor);
  ::posix_spawn_file_actions_adddup2(actions.get(), channel.number(), worker_channel_descriptor);
  ::posix_spawn_file_actions_addclosefrom_np(actions.get(), worker_channel_descriptor + 1);
  std::string program = settings_.program.string();
  std::string memory = std::to_string(settings_.memory_bytes);
  std::string language = "LC_ALL=C.UTF-8";
  std::array<char*, 3> arguments{program.data(), memory.data(), nullptr};
  std::array<char*, 2> environment{language.data(), nullptr};  // nothing of the user's: it may hold secrets
  const SpawnAttributes attributes;
  ::pid_t process = -1;
  const int error =
      ::posix_spawn(&process, program.c_str(), actions.get(), attributes.get(), arguments.data(), environment.data());
  if (error != 0)
    plugin_failed("its worker process cannot be started: " + shell_word(settings_.program) + ": " +
                  std::generic_category().message(error));
  process_ = process;
  channel_.emplace(std::move(ours));
  ++generation_;
}

Wire WorkerProcess::start() {
  spawn();
  Wire kinds = Wire::array();
  for (const StampedKind& kind : plugin_.kinds) kinds.push_back({kind.id, kind.aliases});
  return exchange({{"path", plugin_.path.string()}, {"kinds", std::move(kinds)}});
}

Wire WorkerProcess::load() {
  const auto turn = this->turn();
  Wire answer;
  try {
    answer = start();
  } catch (const Error& error) {
    throw PluginError(plugin_.path, {error.what()});
  }
  if (!answer.contains("refused")) return answer;
  std::vector<std::string> reasons;
  for (const Wire& reason : answer["refused"]) reasons.push_back(shown_text(reason));
  if (reasons.empty()) reasons.emplace_back("its worker process refused it without a reason");
  throw PluginError(plugin_.path, std::move(reasons));
}

Wire WorkerProcess::ask(const Wire& question) {
  const auto turn = this->turn();
  if (late_ >= most_late) stop_asking();
  if (process_ < 0 && start().contains("refused")) {
    end();
    plugin_failed("it cannot be loaded again after its worker process ended");
  }
  return exchange(question);
}

Wire WorkerProcess::exchange(const Wire& question) {
  NoLine why = NoLine::late;
  if (!channel_->send(question.dump(), settings_.longest_answer)) fail(NoLine::ended);
  const std::optional<std::string> line = channel_->receive(settings_.longest_answer, settings_.longest_line, why);
  if (!line) fail(why);
  std::optional<Wire> answer = parsed_answer(*line);
  if (!answer) {
    end();
    refuse_wire();
  }
  if (answer->contains("thrown")) plugin_failed(shown_text((*answer)["thrown"]));
  return *std::move(answer);
}

void WorkerProcess::stop_asking() const {
  plugin_failed("it gave no answer within " + seconds_text(settings_.longest_answer) + ", " +
                std::to_string(most_late) + " times, and is asked no more");
}

void WorkerProcess::fail(NoLine why) {
  const std::string ending = end();
  switch (why) {
    case NoLine::late:
      ++late_;
      plugin_failed("it gave no answer within " + seconds_text(settings_.longest_answer));
    case NoLine::too_long:
      plugin_failed("its answer has more than " + std::to_string(settings_.longest_line) + " bytes");
    case NoLine::ended:
      break;
  }
  plugin_failed(ending);
}

std::string WorkerProcess::end() {
  channel_.reset();
  if (process_ < 0) return "its worker process had ended";
  // One that ended by itself is not killed any more: its own ending is what is told.
  int status = 0;
  ::pid_t ended = 0;
  constexpr int grace_steps = 50;
  constexpr ::useconds_t grace_step = 2000;  // 0.1 s in all, for a process that is just ending
  for (int step = 0; step < grace_steps && ended == 0; ++step) {
    ended = ::waitpid(process_, &status, WNOHANG);
    if (ended == 0) ::usleep(grace_step);
  }
  if (ended == 0) {
    ::kill(process_, SIGKILL);
    while (::waitpid(process_, &status, 0) < 0 && errno == EINTR) {
    }
  }
  process_ = -1;
  return process_end_text(status);
}

}  // namespace ohmwright
