#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_output = 16U << 20U;
constexpr std::chrono::seconds longest_run{20};

/// A pipe whose ends close by themselves and do not reach the program by accident.
class Pipe {
 public:
  Pipe() { made_ = ::pipe2(ends_.data(), O_CLOEXEC) == 0; }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close_reading();
    close_writing();
  }
  bool made() const { return made_; }
  int reading() const { return ends_[0]; }
  int writing() const { return ends_[1]; }
  void close_reading() { close(ends_[0]); }
  void close_writing() { close(ends_[1]); }

 private:
  static void close(int& end) {
    if (end >= 0) ::close(end);
    end = -1;
  }
  std::array<int, 2> ends_{-1, -1};
  bool made_ = false;
};

/// Feeds and empties the pipes of a running program.
class Conversation {
 public:
  Conversation(Pipe& to, Pipe& from, std::string_view input) : to_(to), from_(from), input_(input) {
    ::fcntl(to_.writing(), F_SETFL, O_NONBLOCK);
    ::fcntl(from_.reading(), F_SETFL, O_NONBLOCK);
  }

  /// False when it took too long or said too much.
  bool hold() {
    const auto end = std::chrono::steady_clock::now() + longest_run;
    while (from_.reading() >= 0) {
      const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
      std::array<pollfd, 2> ends{{{from_.reading(), POLLIN, 0}, {to_.writing(), POLLOUT, 0}}};
      if (left.count() <= 0 || ::poll(ends.data(), ends.size(), static_cast<int>(left.count())) < 0) return false;
      if (ends[1].fd >= 0 && ends[1].revents != 0) write_some();
      if (ends[0].revents != 0 && !read_some()) return false;
    }
    return true;
  }

  std::string take() { return std::move(output_); }

 private:
  void write_some() {
    const ssize_t written = ::write(to_.writing(), input_.data(), input_.size());
    if (written > 0) input_.remove_prefix(static_cast<std::size_t>(written));
    if (input_.empty() || (written < 0 && errno != EAGAIN && errno != EINTR)) to_.close_writing();
  }
  bool read_some() {
    std::array<char, 65536> buffer{};
    const ssize_t count = ::read(from_.reading(), buffer.data(), buffer.size());
    if (count < 0) return errno == EAGAIN || errno == EINTR;
    if (count == 0)
      from_.close_reading();
    else
      output_.append(buffer.data(), static_cast<std::size_t>(count));
    return output_.size() <= most_output;
  }

  Pipe& to_;
  Pipe& from_;
  std::string_view input_;
  std::string output_;
};

std::optional<pid_t> start(const std::vector<std::string>& arguments, const Pipe& to, const Pipe& from) {
  std::vector<char*> words;
  words.reserve(arguments.size() + 1);
  for (const std::string& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
  words.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  if (::posix_spawn_file_actions_init(&actions) != 0) return std::nullopt;
  ::posix_spawn_file_actions_adddup2(&actions, to.reading(), STDIN_FILENO);
  ::posix_spawn_file_actions_adddup2(&actions, from.writing(), STDOUT_FILENO);
  ::posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = -1;
  const int failed = ::posix_spawnp(&child, words[0], &actions, nullptr, words.data(), environ);
  ::posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) return std::nullopt;
  return child;
}

/// Keeps a program that stops reading from ending this one.
class BrokenPipesIgnored {
 public:
  BrokenPipesIgnored() : before_(std::signal(SIGPIPE, SIG_IGN)) {}
  BrokenPipesIgnored(const BrokenPipesIgnored&) = delete;
  BrokenPipesIgnored& operator=(const BrokenPipesIgnored&) = delete;
  ~BrokenPipesIgnored() { std::signal(SIGPIPE, before_); }

 private:
  void (*before_)(int);
};

}  // namespace

std::optional<std::string> run_program(const std::vector<std::string>& arguments, std::string_view input) {
  Pipe to;
  Pipe from;
  if (!to.made() || !from.made()) return std::nullopt;
  const std::optional<pid_t> child = start(arguments, to, from);
  if (!child) return std::nullopt;
  to.close_reading();
  from.close_writing();
  const BrokenPipesIgnored ignored;
  Conversation conversation(to, from, input);
  const bool held = conversation.hold();
  if (!held) ::kill(*child, SIGKILL);
  int status = 0;
  while (::waitpid(*child, &status, 0) < 0 && errno == EINTR) continue;
  if (!held || !WIFEXITED(status) || WEXITSTATUS(status) != 0) return std::nullopt;
  return conversation.take();
}

}  // namespace ohmwright
