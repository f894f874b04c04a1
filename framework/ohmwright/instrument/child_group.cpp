#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include <ohmwright/instrument/child_group.hpp>

namespace ohmwright::instrument {

int ChildGroup::start(std::vector<std::string> words, int prints_to) {
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  ::posix_spawn_file_actions_t actions{};
  ::posix_spawn_file_actions_init(&actions);
  ::posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  ::posix_spawn_file_actions_adddup2(&actions, prints_to, STDOUT_FILENO);
  ::posix_spawnattr_t attributes{};
  ::posix_spawnattr_init(&attributes);
  ::posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETPGROUP);  // a group of its own, 0: named by its number
  ::pid_t started = 0;
  const int trouble = ::posix_spawnp(&started, pointers[0], &actions, &attributes, pointers.data(), environ);
  ::posix_spawnattr_destroy(&attributes);
  ::posix_spawn_file_actions_destroy(&actions);
  if (trouble == 0) leader_ = started;
  return trouble;
}

ChildGroup::~ChildGroup() {
  if (leader_ <= 0) return;
  ::kill(-leader_, SIGTERM);
  constexpr std::chrono::milliseconds step{10};
  constexpr int steps = 50;
  for (int i = 0; i < steps; ++i) {
    if (::waitpid(leader_, nullptr, WNOHANG) != 0) {
      ::kill(-leader_, SIGKILL);  // those that it left behind
      return;
    }
    std::this_thread::sleep_for(step);
  }
  ::kill(-leader_, SIGKILL);
  ::waitpid(leader_, nullptr, 0);
}

}  // namespace ohmwright::instrument
