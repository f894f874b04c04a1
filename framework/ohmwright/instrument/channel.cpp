#include <array>
#include <cerrno>
#include <fcntl.h>
#include <functional>
#include <optional>
#include <system_error>
#include <unistd.h>
#include <utility>
#include <vector>

#include <boost/asio/connect.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/serial_port.hpp>
#include <boost/asio/write.hpp>

#include <ohmwright/instrument/channel.hpp>
#include <ohmwright/instrument/child_group.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::instrument {

namespace {

namespace asio = boost::asio;
using boost::system::error_code;

constexpr std::size_t longest_answer = 65536;

std::string seconds_text(std::chrono::milliseconds time) {
  std::string text = std::to_string(static_cast<double>(time.count()) / 1000.0);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text + " s";
}

/// Lines over whatever the library can read from and write to.
template <class Stream>
class StreamChannel : public Channel {
 public:
  StreamChannel(std::string name, std::chrono::milliseconds patience)
      : stream_(io_), name_(std::move(name)), patience_(patience) {}

  void send(std::string_view line) override {
    const std::string bytes = std::string(line) + '\n';
    error_code error;
    const bool in_time =
        within_patience([&](auto done) { asio::async_write(stream_, asio::buffer(bytes), done); }, error);
    if (!in_time) fail("took " + ohmwright::quoted(line) + " not within " + seconds_text(patience_));
    if (error) fail("cannot be written to: " + error.message());
  }

  std::string receive(std::string_view asked) override {
    Line line = receive_line(asked);
    if (line.is_silence) fail_as_silent(asked);
    return answer_in(std::move(line), asked);
  }

  std::optional<std::string> receive_unless_ended(std::string_view asked) override {
    Line line = receive_line(asked);
    if (line.is_silence) fail_as_silent(asked);
    return std::move(line.text);
  }

  std::optional<std::string> receive_unless_silent(std::string_view asked) override {
    Line line = receive_line(asked);
    if (line.is_silence) return std::nullopt;
    return answer_in(std::move(line), asked);
  }

  Stream& stream() { return stream_; }
  asio::io_context& io() { return io_; }

  /// Starts `start` with a handler and waits for it; false when the time ran out.
  bool within_patience(const std::function<void(std::function<void(error_code, std::size_t)>)>& start,
                       error_code& error) {
    return wait_for(start, error, patience_);
  }

  [[noreturn]] void fail(const std::string& what) const {
    throw InputError("the instrument " + ohmwright::quoted(name_) + " " + what);
  }

 private:
  /// What came of waiting for a line; neither: the other side ended the connection behind a whole line.
  struct Line {
    std::optional<std::string> text = {};
    bool is_silence = false;
  };

  Line receive_line(std::string_view asked) {
    const auto deadline = std::chrono::steady_clock::now() + patience_;
    while (true) {
      if (const std::size_t end = held_.find('\n'); end != std::string::npos) return {take_line(end)};
      if (held_.size() > longest_answer) fail("answers " + about(asked) + " without a line's end");
      const auto left =
          std::chrono::duration_cast<std::chrono::milliseconds>(deadline - std::chrono::steady_clock::now());
      std::array<char, 4096> room{};
      std::size_t got = 0;
      error_code error;
      const bool in_time = left.count() > 0 && read_some(room, got, error, left);
      held_.append(room.data(), got);
      if (!in_time && held_.empty()) return {std::nullopt, true};
      if (!in_time)
        fail("gave half an answer " + about(asked) + ", " + ohmwright::quoted(held_) + ", and no line's end within " +
             seconds_text(patience_));
      if (error == asio::error::eof && held_.empty()) return {};
      if (error && held_.find('\n') == std::string::npos) closed(asked, error);
    }
  }

  std::string answer_in(Line line, std::string_view asked) const {
    if (!line.text) fail("ended the connection without an answer " + about(asked));
    return *std::move(line.text);
  }

  [[noreturn]] void fail_as_silent(std::string_view asked) const {
    fail("gave no answer " + about(asked) + " within " + seconds_text(patience_) +
         "; is it on, in remote control, and does it know this request?");
  }

  static std::string about(std::string_view asked) {
    return asked.empty() ? "of its own" : "to " + ohmwright::quoted(asked);
  }

  std::string take_line(std::size_t end) {
    std::string line = held_.substr(0, end);
    held_.erase(0, end + 1);
    while (!line.empty() && line.back() == '\r') line.pop_back();
    return line;
  }

  bool read_some(std::array<char, 4096>& room, std::size_t& got, error_code& error, std::chrono::milliseconds left) {
    const auto start = [&](const std::function<void(error_code, std::size_t)>& done) {
      stream_.async_read_some(asio::buffer(room), [&got, done](error_code trouble, std::size_t bytes) {
        got = bytes;
        done(trouble, bytes);
      });
    };
    return wait_for(start, error, left);
  }

  bool wait_for(const std::function<void(std::function<void(error_code, std::size_t)>)>& start, error_code& error,
                std::chrono::milliseconds time) {
    bool done = false;
    io_.restart();
    start([&](error_code trouble, std::size_t) {
      done = true;
      error = trouble;
    });
    io_.run_for(time);
    if (done) return true;
    error_code ignored;
    stream_.cancel(ignored);
    io_.restart();
    io_.run();  // what was cancelled must end before its memory goes
    return false;
  }

  [[noreturn]] void closed(std::string_view asked, const error_code& error) const {
    const std::string why = error == asio::error::eof ? std::string() : " (" + error.message() + ")";
    if (held_.empty()) fail("ended the connection" + why + " without an answer " + about(asked));
    fail("ended the connection" + why + " in the middle of its answer " + about(asked) + ", after " +
         ohmwright::quoted(held_));
  }

  asio::io_context io_;
  Stream stream_;
  std::string name_;
  std::chrono::milliseconds patience_;
  std::string held_;
};

std::unique_ptr<Channel> open_tcp(const Address& address, std::chrono::milliseconds patience) {
  using asio::ip::tcp;
  auto channel = std::make_unique<StreamChannel<tcp::socket>>(address.text, patience);
  error_code error;
  tcp::resolver resolver(channel->io());
  const auto ends = resolver.resolve(address.host, std::to_string(address.port), error);
  if (error) channel->fail("cannot be found: " + error.message());
  bool in_time = false;
  for (const auto& end : ends) {  // each address of the host in turn
    error_code ignored;
    channel->stream().close(ignored);
    channel->stream().open(end.endpoint().protocol(), error);
    if (error) continue;
    in_time = channel->within_patience(
        [&](const auto& done) {
          channel->stream().async_connect(end.endpoint(), [done](error_code trouble) { done(trouble, 0); });
        },
        error);
    if (in_time && !error) break;
  }
  if (!in_time) channel->fail("does not answer within " + seconds_text(patience));
  if (error)
    channel->fail("cannot be reached: " + error.message() +
                  "; is it on, at this address, and is its remote control over the network enabled?");
  channel->stream().set_option(tcp::no_delay(true), error);
  return channel;
}

std::unique_ptr<Channel> open_serial(const Address& address, std::chrono::milliseconds patience) {
  using asio::serial_port_base;
  auto channel = std::make_unique<StreamChannel<asio::serial_port>>(address.text, patience);
  error_code error;
  channel->stream().open(address.device, error);
  if (error) channel->fail("cannot be opened: " + error.message());
  // What instruments are delivered with, and what RS-232 adapters take: 8 bits, no parity, one stop bit.
  channel->stream().set_option(serial_port_base::baud_rate(address.baud), error);
  if (!error) channel->stream().set_option(serial_port_base::character_size(8), error);
  if (!error) channel->stream().set_option(serial_port_base::parity(serial_port_base::parity::none), error);
  if (!error) channel->stream().set_option(serial_port_base::stop_bits(serial_port_base::stop_bits::one), error);
  if (!error) channel->stream().set_option(serial_port_base::flow_control(serial_port_base::flow_control::none), error);
  if (error) channel->fail("takes no such settings (" + std::to_string(address.baud) + " baud): " + error.message());
  return channel;
}

/// A program of the user's own, which prints lines; it is ended with the channel, and with it what it has started.
class ProgramChannel : public StreamChannel<asio::posix::stream_descriptor> {
 public:
  ProgramChannel(const Address& address, std::chrono::milliseconds patience)
      : StreamChannel<asio::posix::stream_descriptor>(address.text, patience) {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) fail("cannot be started: " + std::generic_category().message(errno));
    const int trouble = child_.start(address.command, ends[1]);
    ::close(ends[1]);
    error_code error(trouble, boost::system::generic_category());
    if (!error) stream().assign(ends[0], error);
    if (!error) return;
    ::close(ends[0]);
    fail("cannot be started: " + error.message());
  }

  void send(std::string_view /*line*/) override {}  // it prints what it likes

 private:
  ChildGroup child_;
};

}  // namespace

std::unique_ptr<Channel> open_channel(const Address& address, std::chrono::milliseconds patience) {
  switch (address.way) {
    case Address::Way::tcp:
      return open_tcp(address, patience);
    case Address::Way::serial:
      return open_serial(address, patience);
    default:
      return std::make_unique<ProgramChannel>(address, patience);
  }
}

}  // namespace ohmwright::instrument
