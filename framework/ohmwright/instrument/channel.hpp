#pragma once

#include <chrono>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/instrument/address.hpp>

namespace ohmwright::instrument {

/// Carries lines to and from an instrument, each within a time limit.
class Channel {
 public:
  Channel() = default;
  Channel(const Channel&) = delete;
  Channel& operator=(const Channel&) = delete;
  virtual ~Channel() = default;

  /// Sends a line; its end is added. Throws InputError when it cannot be sent in time.
  virtual void send(std::string_view line) = 0;
  /// The next line, without its end. `asked` is what it answers, for messages. Throws InputError for silence, half an
  /// answer, a connection that was closed, and a line without end.
  virtual std::string receive(std::string_view asked) = 0;
  /// The same, but nothing where the other side has ended the connection behind a whole line.
  virtual std::optional<std::string> receive_unless_ended(std::string_view asked) = 0;
  /// The same as `receive`, but nothing for silence until the time limit.
  virtual std::optional<std::string> receive_unless_silent(std::string_view asked) = 0;
};

/// Connects. Every later step has `patience` at most. Throws InputError where nothing can be reached.
std::unique_ptr<Channel> open_channel(const Address& address, std::chrono::milliseconds patience);

}  // namespace ohmwright::instrument
