#include <algorithm>
#include <array>
#include <cerrno>
#include <poll.h>
#include <sys/socket.h>
#include <utility>

#include <ohmwright/plugin/worker/worker_channel.hpp>

namespace ohmwright {

namespace {

using Clock = std::chrono::steady_clock;

/// Waits until the descriptor is ready; false when `end` comes first.
bool is_ready(int descriptor, short what, std::optional<Clock::time_point> end) {
  for (;;) {
    int wait = -1;
    if (end) {
      const auto left = std::chrono::ceil<std::chrono::milliseconds>(*end - Clock::now()).count();
      if (left <= 0) return false;
      wait = static_cast<int>(std::min<std::int64_t>(left, 1'000'000));
    }
    ::pollfd asked{descriptor, what, 0};
    const int ready = ::poll(&asked, 1, wait);
    if (ready > 0) return true;
    if (ready < 0 && errno != EINTR) return false;
  }
}

std::optional<Clock::time_point> end_of(std::chrono::milliseconds longest) {
  if (longest.count() < 0) return std::nullopt;
  return Clock::now() + longest;
}

}  // namespace

bool WorkerChannel::send(std::string_view line, std::chrono::milliseconds longest) {
  const auto end = end_of(longest);
  std::string all(line);
  all += '\n';
  std::string_view rest = all;
  while (!rest.empty()) {
    if (!is_ready(end_.number(), POLLOUT, end)) return false;
    const ::ssize_t sent = ::send(end_.number(), rest.data(), rest.size(), MSG_NOSIGNAL | MSG_DONTWAIT);
    if (sent > 0) rest.remove_prefix(static_cast<std::size_t>(sent));
    if (sent < 0 && errno != EINTR && errno != EAGAIN) return false;
  }
  return true;
}

std::optional<std::string> WorkerChannel::receive(std::chrono::milliseconds longest, std::size_t longest_line,
                                                  NoLine& why) {
  const auto end = end_of(longest);
  std::size_t looked_at = 0;
  for (;;) {
    const std::size_t at = read_.find('\n', looked_at);
    if (at != std::string::npos) {
      std::string line = read_.substr(0, at);
      read_.erase(0, at + 1);
      return line;
    }
    looked_at = read_.size();
    why = NoLine::too_long;
    if (read_.size() > longest_line) return std::nullopt;
    why = NoLine::late;
    if (!is_ready(end_.number(), POLLIN, end)) return std::nullopt;
    std::array<char, 65536> buffer;  // filled by the call
    const ::ssize_t count = ::recv(end_.number(), buffer.data(), buffer.size(), 0);
    why = NoLine::ended;
    if (count == 0 || (count < 0 && errno != EINTR)) return std::nullopt;
    if (count > 0) read_.append(buffer.data(), static_cast<std::size_t>(count));
  }
}

}  // namespace ohmwright
