#pragma once

#include <memory>
#include <optional>
#include <string>

#include <ohmwright/instrument/channel.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright::instrument {

/// What is asked of an instrument.
struct Wanted {
  Dimension dimension = Dimension::resistance;
  bool four_wires = false;     ///< ohms with two leads more, which do not count
  bool direct_supply = false;  ///< volts and amperes of direct supply; else alternating
  bool its_name = true;        ///< ask it for its name first, where it speaks SCPI
  /// What it may show below 0 of a quantity that has no sign, and mean 0: its counts there [SI unit of the dimension].
  double zero_error = 0.0;
};

/// Shows values one after another.
class Readout {
 public:
  Readout() = default;
  Readout(const Readout&) = delete;
  Readout& operator=(const Readout&) = delete;
  virtual ~Readout() = default;

  /// What it calls itself; empty where it did not say.
  virtual std::string name() = 0;
  /// The next value: a number, or over-range; nothing after the last one of a program that has ended. Throws InputError
  /// for what the channel throws, another unit, and what is no number.
  virtual std::optional<Observed> next() = 0;
};

/// An instrument that is asked by SCPI-1999: "*IDN?", which many leave unanswered, "MEAS:RES?", "MEAS:FRES?",
/// "MEAS:TEMP?", "MEAS:VOLT:AC?" and so on. A thermometer is asked for its unit first. 9.9E37 is over-range, -9.9E37
/// too where the quantity may be negative, 9.91E37 no number (SCPI-1999, volume 1, 7.2.1.4/5). Throws InputError for a
/// quantity that has no such request.
std::unique_ptr<Readout> scpi_readout(std::unique_ptr<Channel> channel, const Wanted& wanted);

/// A program that prints a line of JSON for each value: {"value": "11.45 kohm"}, {"value": "OL"}. It may end after one.
std::unique_ptr<Readout> program_readout(std::unique_ptr<Channel> channel, const Wanted& wanted);

/// Connects and asks in the way that the address says.
std::unique_ptr<Readout> open_readout(const Address& address, const Wanted& wanted, std::chrono::milliseconds patience);

}  // namespace ohmwright::instrument
