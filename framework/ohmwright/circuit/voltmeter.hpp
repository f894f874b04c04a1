#pragma once

#include <complex>
#include <limits>
#include <span>

#include <ohmwright/circuit/phasor.hpp>
#include <ohmwright/circuit/variation.hpp>

namespace ohmwright::circuit {

/// A voltmeter on a live network, in one set-up, at a list of pairs of nodes. Its input resistance is a real load.
///
/// A conductor that hangs in the air reads what stray capacitance feeds into that load (a ghost voltage); over two
/// parts that nothing connects, not even a capacitance, no current can flow through the meter and it reads 0 V. All
/// sources have the line frequency, which may be 0 for direct current. The network must outlive the meter.
class Voltmeter {
 public:
  class Variant;

  /// `input_resistance` is above 0 ohm and may be infinite. Throws InputError where sources and conductors without
  /// resistance form a loop, naming its branches, and where the network resonates without loss.
  Voltmeter(const Network& network, Frequency line_frequency, Resistance input_resistance,
            std::span<const NodePair> pairs, std::span<const Change> changes = {});

  /// Voltage of `plus` against `minus` [V].
  VoltagePhasor reading(std::size_t pair) const;

  /// Derivative of the magnitude of a reading by the value of every branch [V per ohm, farad, henry or volt]; 0 for
  /// closed and open branches. Adjoint method, as for `Ohmmeter`.
  void sensitivities(std::size_t pair, std::span<double> by_value) const;

  /// The same network with some branches changed; throws as the constructor. The voltmeter must outlive the variant and
  /// stay where it is.
  Variant with(std::span<const Change> changes) const;

 private:
  Prepared<std::complex<double>> prepared_;
  double input_resistance_in_ohm_;
};

/// A faulty variant of a live network. It belongs to one thread: a reading may solve it anew, once.
class Voltmeter::Variant {
 public:
  VoltagePhasor reading(std::size_t pair) {
    if (variation_.separated(pair)) return {};
    const std::complex<double> unloaded = variation_.voltage(pair);
    const std::complex<double> load =
        1.0 + variation_.impedance(pair, input_resistance_in_ohm_) / input_resistance_in_ohm_;
    return VoltagePhasor::from_value(unloaded * std::conj(load) /
                                     std::norm(load));  // a division without its rare cases
  }
  void sensitivities(std::size_t pair, std::span<double> by_value);

  /// Magnitude of the impedance behind a pair, the meter's own input not counted [ohm]; infinite where no way leads
  /// from one probe to the other.
  Resistance source_impedance(std::size_t pair) {
    const double ohm =
        variation_.separated(pair) ? std::numeric_limits<double>::infinity() : std::abs(variation_.impedance(pair));
    return Resistance::from_value(ohm);
  }

 private:
  friend class Voltmeter;
  Variant(Variation<std::complex<double>> variation, double input_resistance_in_ohm)
      : variation_(std::move(variation)), input_resistance_in_ohm_(input_resistance_in_ohm) {}

  Variation<std::complex<double>> variation_;
  double input_resistance_in_ohm_;
};

}  // namespace ohmwright::circuit
