#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <thread>

namespace ohmwright::testing {

/// How a simulated instrument answers one line: the bytes it sends, line end and all, and whether it then hangs up.
struct Answer {
  std::string bytes;
  bool hangs_up = false;
  int pause_milliseconds = 0;  ///< before it answers
};

/// An instrument on the loopback interface: a thread that takes one connection and answers line by line as `behaviour`
/// says. Only what it shows is made up: it speaks over a real socket.
class SimulatedInstrument {
 public:
  explicit SimulatedInstrument(std::function<Answer(std::string_view)> behaviour);
  ~SimulatedInstrument();
  SimulatedInstrument(const SimulatedInstrument&) = delete;
  SimulatedInstrument& operator=(const SimulatedInstrument&) = delete;

  std::string address() const { return "tcp://127.0.0.1:" + std::to_string(port_); }

 private:
  int listener_ = -1;
  std::uint16_t port_ = 0;
  std::jthread thread_;
};

/// The same at the far end of a pseudo-terminal, as a serial instrument.
class SimulatedSerialInstrument {
 public:
  explicit SimulatedSerialInstrument(std::function<Answer(std::string_view)> behaviour);
  ~SimulatedSerialInstrument();
  SimulatedSerialInstrument(const SimulatedSerialInstrument&) = delete;
  SimulatedSerialInstrument& operator=(const SimulatedSerialInstrument&) = delete;

  std::string address() const { return "serial:" + device_ + "?baud=115200"; }

 private:
  int master_ = -1;
  std::string device_;
  std::jthread thread_;
};

}  // namespace ohmwright::testing
