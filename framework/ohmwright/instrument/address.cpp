#include <algorithm>
#include <charconv>
#include <optional>
#include <sstream>
#include <string_view>

#include <ohmwright/instrument/address.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::instrument {

namespace {

[[noreturn]] void refuse_address(const std::string& text, const std::string& why) {
  throw InputError("the instrument " + ohmwright::quoted(text) + " " + why +
                   "; write tcp://HOST, tcp://HOST:5025, serial:/dev/ttyUSB0?baud=9600 or program:COMMAND");
}

template <class Number>
std::optional<Number> whole_number(std::string_view text, Number most) {
  unsigned long number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || number == 0 || number > most) return std::nullopt;
  return static_cast<Number>(number);
}

/// What stands behind "?", each option behind an "&". Takes it off `rest`.
void read_options(std::string_view& rest, const std::string& text, Address& address) {
  const std::size_t question = rest.find('?');
  if (question == std::string_view::npos) return;
  std::string_view options = rest.substr(question + 1);
  rest = rest.substr(0, question);
  constexpr std::string_view baud = "baud=";
  const bool is_serial = address.way == Address::Way::serial;
  for (bool more = true; more;) {
    const std::size_t end = std::min(options.find('&'), options.size());
    const std::string_view option = options.substr(0, end);
    more = end < options.size();
    options.remove_prefix(end + (more ? 1 : 0));
    if (option == "unnamed") {
      address.asks_its_name = false;
      continue;
    }
    const auto number = is_serial && option.starts_with(baud)
                            ? whole_number<unsigned>(option.substr(baud.size()), 4'000'000U)
                            : std::nullopt;
    if (!number)
      refuse_address(text, is_serial ? "has something else than baud=NUMBER or unnamed behind its \"?\""
                                     : "has something else than unnamed behind its \"?\"");
    address.baud = *number;
  }
}

void read_host(std::string_view rest, const std::string& text, Address& address) {
  read_options(rest, text, address);
  std::string_view port;
  if (rest.starts_with('[')) {
    const std::size_t end = rest.find(']');
    if (end == std::string_view::npos) refuse_address(text, "opens a bracket that nothing closes");
    address.host = rest.substr(1, end - 1);
    port = rest.substr(end + 1);
  } else {
    const std::size_t colon = std::min(rest.find(':'), rest.size());
    address.host = rest.substr(0, colon);
    port = rest.substr(colon);
  }
  if (address.host.empty()) refuse_address(text, "names no host");
  if (port.empty()) return;
  const auto number = port.starts_with(':') ? whole_number<std::uint16_t>(port.substr(1), 65535) : std::nullopt;
  if (!number) refuse_address(text, "has a port that is no number from 1 to 65535");
  address.port = *number;
}

void read_device(std::string_view rest, const std::string& text, Address& address) {
  read_options(rest, text, address);
  address.device = rest;
  if (address.device.empty()) refuse_address(text, "names no device");
}

}  // namespace

Address parse_address(const std::string& text) {
  Address address;
  address.text = text;
  const std::string_view all = text;
  if (all.starts_with("tcp://")) {
    address.way = Address::Way::tcp;
    read_host(all.substr(6), text, address);
  } else if (all.starts_with("serial:")) {
    address.way = Address::Way::serial;
    read_device(all.substr(7), text, address);
  } else if (all.starts_with("program:")) {
    address.way = Address::Way::program;
    std::istringstream words(text.substr(8));
    for (std::string word; words >> word;) address.command.push_back(word);
    if (address.command.empty()) refuse_address(text, "names no program");
  } else {
    refuse_address(text, "is none that can be reached");
  }
  return address;
}

}  // namespace ohmwright::instrument
