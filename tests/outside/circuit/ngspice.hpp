#pragma once

#include <complex>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit::testing_support {

/// Networks collected for one run of ngspice, which solves them one after the other.
class NgspiceBatch {
 public:
  /// What ngspice found: the voltage between the probes [V], or the resistance [ohm] as volts for 1 A, and the current
  /// of every source and closed branch [A] (0 for other branches). Signs as in `Network`.
  struct Answer {
    std::complex<double> between_probes;
    std::vector<std::complex<double>> currents;
  };

  /// 1 A from minus to plus, the sources taken out, operating point: a capacitor is open, a coil closed.
  std::size_t add_ohms(const Network& network, std::span<const Change> changes, NodePair probes);
  /// Live, a resistance between the probes for the meter; 0 Hz is an operating point, else a sweep of one frequency.
  std::size_t add_volts(const Network& network, std::span<const Change> changes, NodePair probes, double meter_in_ohm,
                        double frequency_in_hz);

  /// One answer a network; none where ngspice finds the matrix singular. Nothing at all where it is not installed.
  std::optional<std::vector<std::optional<Answer>>> run() const;

  std::size_t size() const { return branch_counts_.size(); }

 private:
  std::size_t add(const Network& network, std::span<const Change> changes, NodePair probes, std::string lines,
                  bool sources, double frequency_in_hz);

  std::string script_;
  std::vector<std::size_t> branch_counts_;
};

}  // namespace ohmwright::circuit::testing_support
