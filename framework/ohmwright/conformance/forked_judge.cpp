#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <string_view>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <ohmwright/conformance/forked_judge.hpp>
#include <ohmwright/document/meter_record.hpp>
#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

[[noreturn]] void fail(const std::string& text) { throw Error(ErrorCategory::plugin, "judging in a child: " + text); }

/// Both ends of a pipe, closed when left.
class Pipe {
 public:
  Pipe() {
    if (::pipe2(ends_.data(), O_CLOEXEC) != 0) fail("no pipe");
  }
  ~Pipe() {
    close_end(0);
    close_end(1);
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;

  void close_end(std::size_t end) {
    if (ends_[end] >= 0) ::close(ends_[end]);
    ends_[end] = -1;
  }

  bool write_all(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t count = ::write(ends_[1], bytes.data(), bytes.size());
      if (count < 0 && errno == EINTR) continue;
      if (count <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
  }

  std::string read_all() const {
    std::string all;
    std::array<char, 65536> buffer{};
    for (;;) {
      const ssize_t count = ::read(ends_[0], buffer.data(), buffer.size());
      if (count < 0 && errno == EINTR) continue;
      if (count <= 0) return all;
      all.append(buffer.data(), static_cast<std::size_t>(count));
    }
  }

 private:
  std::array<int, 2> ends_{-1, -1};
};

/// All that judging depends on beside the part, one record a line.
std::string request_of(std::span<const Reading> readings, const MeterSet& meters, const JudgeSettings& settings) {
  return readings_record(readings) + '\n' + meters_record(meters.all()) + '\n' + settings_record(settings);
}

/// The part of `text` before its first line feed, which goes with it.
std::string_view take_line(std::string_view& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return line;
}

/// What the child does with the request: everything it knows beside the part comes from there.
std::string answer_to(std::string_view request, const Part& part, const Descriptor& descriptor) {
  const std::vector<Reading> readings = readings_from_record(take_line(request));
  const MeterSet meters(meters_from_record(take_line(request)));
  const JudgeSettings settings = settings_from_record(take_line(request));
  const Evidence evidence(descriptor, readings, meters);
  return verdict_record(judge(part, descriptor, evidence, settings), descriptor, evidence.sources());
}

std::string ending_of(int status) {
  if (WIFSIGNALED(status)) return "ended by signal " + std::to_string(WTERMSIG(status));
  return "ended with code " + std::to_string(WEXITSTATUS(status));
}

}  // namespace

RecordedVerdict judge_in_child(const Part& part, const Descriptor& descriptor, std::span<const Reading> readings,
                               const MeterSet& meters, const JudgeSettings& settings) {
  const std::string request = request_of(readings, meters, settings);
  Pipe answer;
  const pid_t child = ::fork();
  if (child < 0) fail("no process");
  if (child == 0) {
    bool written = false;
    try {
      written = answer.write_all(answer_to(request, part, descriptor));
    } catch (...) {
      ::_exit(1);
    }
    ::_exit(written ? 0 : 1);
  }
  answer.close_end(1);
  const std::string record = answer.read_all();
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) fail(ending_of(status));
  return verdict_from_record(record, descriptor);
}

}  // namespace ohmwright
