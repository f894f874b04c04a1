#pragma once

#include <string>
#include <sys/types.h>
#include <vector>

namespace ohmwright::instrument {

/// A started program and all that it starts, a process group of its own. It is ended and waited for when left, also by
/// an exception: first asked to (SIGTERM), after half a second made to (SIGKILL).
class ChildGroup {
 public:
  ChildGroup() = default;
  ~ChildGroup();
  ChildGroup(const ChildGroup&) = delete;
  ChildGroup& operator=(const ChildGroup&) = delete;

  /// Starts a program by its name and arguments, what it prints going to the file `prints_to`, with nothing to read.
  /// Gives 0, or the error number where it cannot be started. To be called once, with one word at least.
  int start(std::vector<std::string> words, int prints_to);

  /// Its process; 0 before it was started.
  ::pid_t leader() const { return leader_; }

 private:
  ::pid_t leader_ = 0;
};

}  // namespace ohmwright::instrument
