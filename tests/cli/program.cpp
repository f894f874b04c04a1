#include "program.hpp"

#include <array>
#include <cstdlib>
#include <fcntl.h>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace ohmwright::testing {

namespace {

/// A nameless temporary file that a child writes to and we read afterwards: no pipe that could fill up.
class CaughtOutput {
 public:
  CaughtOutput() : descriptor_(::open("/tmp", O_TMPFILE | O_RDWR | O_CLOEXEC, 0600)) {
    if (descriptor_ < 0) throw std::runtime_error("no temporary file");
  }
  ~CaughtOutput() { ::close(descriptor_); }
  CaughtOutput(const CaughtOutput&) = delete;
  CaughtOutput& operator=(const CaughtOutput&) = delete;

  int descriptor() const { return descriptor_; }

  std::string text() const {
    std::string all;
    std::array<char, 65536> buffer{};
    ::lseek(descriptor_, 0, SEEK_SET);
    for (;;) {
      const ssize_t count = ::read(descriptor_, buffer.data(), buffer.size());
      if (count <= 0) return all;
      all.append(buffer.data(), static_cast<std::size_t>(count));
    }
  }

 private:
  int descriptor_;
};

std::vector<char*> pointers_to(std::vector<std::string>& texts) {
  std::vector<char*> pointers;
  for (std::string& text : texts) pointers.push_back(text.data());
  pointers.push_back(nullptr);
  return pointers;
}

}  // namespace

Ran run_program(const std::vector<std::string>& words, const std::vector<std::string>& environment,
                const std::string& input) {
  std::vector<std::string> arguments{OHMWRIGHT_PROGRAM};
  arguments.insert(arguments.end(), words.begin(), words.end());
  std::vector<std::string> variables{"PATH=/usr/bin:/bin", "LC_ALL=C.UTF-8"};
  variables.insert(variables.end(), environment.begin(), environment.end());
  const std::vector<char*> argument_pointers = pointers_to(arguments);
  const std::vector<char*> variable_pointers = pointers_to(variables);
  const CaughtOutput out;
  const CaughtOutput err;
  const CaughtOutput typed;  // read back by the child
  if (::write(typed.descriptor(), input.data(), input.size()) != static_cast<ssize_t>(input.size()))
    throw std::runtime_error("no input written");
  ::lseek(typed.descriptor(), 0, SEEK_SET);

  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("fork failed");
  if (child == 0) {
    ::dup2(typed.descriptor(), STDIN_FILENO);
    ::dup2(out.descriptor(), STDOUT_FILENO);
    ::dup2(err.descriptor(), STDERR_FILENO);
    ::execve(argument_pointers[0], argument_pointers.data(), variable_pointers.data());
    ::_exit(127);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), out.text(), err.text()};
}

}  // namespace ohmwright::testing
