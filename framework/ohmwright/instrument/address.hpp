#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace ohmwright::instrument {

/// Port that instruments listen to for SCPI over a bare socket (IANA, service "scpi-raw").
inline constexpr std::uint16_t scpi_port = 5025;

/// How an instrument is reached.
struct Address {
  enum class Way { tcp, serial, program };
  Way way = Way::tcp;
  std::string host;
  std::uint16_t port = scpi_port;
  std::string device;
  unsigned baud = 9600;
  bool asks_its_name = true;         ///< false: it knows no "*IDN?", and is not asked
  std::vector<std::string> command;  ///< the program and its arguments; no shell reads them
  std::string text;                  ///< as it was typed
};

/// "tcp://192.0.2.7", "tcp://[2001:db8::7]:5025", "serial:/dev/ttyUSB0?baud=115200", "program:read-meter --fast";
/// behind the first three "?unnamed" or "&unnamed" for an instrument that knows no "*IDN?". Throws InputError for
/// anything else.
Address parse_address(const std::string& text);

}  // namespace ohmwright::instrument
