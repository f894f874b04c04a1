#include "simulated_instrument.hpp"

#include <arpa/inet.h>
#include <cstdlib>
#include <fcntl.h>
#include <netinet/in.h>
#include <poll.h>
#include <stdexcept>
#include <sys/socket.h>
#include <termios.h>
#include <unistd.h>

namespace ohmwright::testing {

namespace {

/// Waits for something to read in steps, so that the thread hears when it shall stop.
bool is_readable(int file, const std::stop_token& stop) {
  while (!stop.stop_requested()) {
    pollfd one{file, POLLIN, 0};
    if (::poll(&one, 1, 10) > 0) return (one.revents & POLLIN) != 0;
  }
  return false;
}

void serve(int file, const std::function<Answer(std::string_view)>& behaviour, const std::stop_token& stop) {
  std::string held;
  while (is_readable(file, stop)) {
    char room[512];
    const ssize_t got = ::read(file, room, sizeof room);
    if (got <= 0) return;
    held.append(room, static_cast<std::size_t>(got));
    for (std::size_t end = held.find('\n'); end != std::string::npos; end = held.find('\n')) {
      const Answer answer = behaviour(std::string_view(held).substr(0, end));
      held.erase(0, end + 1);
      std::this_thread::sleep_for(std::chrono::milliseconds(answer.pause_milliseconds));
      if (::write(file, answer.bytes.data(), answer.bytes.size()) < 0) return;
      if (answer.hangs_up) return;
    }
  }
}

}  // namespace

SimulatedInstrument::SimulatedInstrument(std::function<Answer(std::string_view)> behaviour)
    : listener_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof address;
  auto* any = reinterpret_cast<sockaddr*>(&address);
  if (::bind(listener_, any, size) != 0 || ::listen(listener_, 1) != 0 || ::getsockname(listener_, any, &size) != 0)
    throw std::runtime_error("no socket on the loopback interface");
  port_ = ntohs(address.sin_port);
  thread_ = std::jthread([this, behaviour = std::move(behaviour)](const std::stop_token& stop) {
    while (is_readable(listener_, stop)) {
      const int connection = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
      if (connection < 0) return;
      serve(connection, behaviour, stop);
      ::close(connection);
    }
  });
}

SimulatedInstrument::~SimulatedInstrument() {
  thread_.request_stop();
  thread_.join();
  ::close(listener_);
}

SimulatedSerialInstrument::SimulatedSerialInstrument(std::function<Answer(std::string_view)> behaviour)
    : master_(::posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC)) {
  char name[128];
  if (master_ < 0 || ::grantpt(master_) != 0 || ::unlockpt(master_) != 0 ||
      ::ptsname_r(master_, name, sizeof name) != 0)
    throw std::runtime_error("no pseudo-terminal");
  device_ = name;
  termios settings{};
  ::tcgetattr(master_, &settings);
  ::cfmakeraw(&settings);
  ::tcsetattr(master_, TCSANOW, &settings);
  thread_ = std::jthread([this, behaviour = std::move(behaviour)](const std::stop_token& stop) {
    while (!stop.stop_requested()) {  // nobody at the other end yet reads as a hang-up
      serve(master_, behaviour, stop);
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
  });
}

SimulatedSerialInstrument::~SimulatedSerialInstrument() {
  thread_.request_stop();
  thread_.join();
  ::close(master_);
}

}  // namespace ohmwright::testing
