#pragma once

#include <complex>
#include <cstdint>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit {

/// An amplitude with its phase, in SI units: what every value is under power.
using Phasor = std::complex<double>;

/// What a branch does in the network that one instrument meets.
enum class Conduct : std::uint8_t { absent, joined, source, admittance };

/// A branch as the solver takes it. Real (`double`) for an ohmmeter, complex under power.
template <typename Scalar>
struct BranchState {
  NodeIndex from = 0;
  NodeIndex to = 0;
  Conduct conduct = Conduct::absent;
  Scalar value = {};  ///< siemens of an admittance, volt of a source
};

/// How a network is fed: the angular frequency [rad/s] of its sources, 0 for direct current. An ohmmeter has none.
template <typename Scalar>
struct Feed;

template <>
struct Feed<double> {
  /// After the ohmmeter's own current has settled: a capacitance is open, an inductance closed, a source unplugged.
  BranchState<double> state(const Branch& branch) const;
  /// Derivative of the admittance by the branch's value: -1/R² of a resistance, else 0.
  double admittance_slope(const BranchModel& model) const;
};

template <>
struct Feed<std::complex<double>> {
  double angular_frequency = 0.0;

  /// 1/R, jωC, 1/(jωL); with direct current a capacitance is open and an inductance closed.
  BranchState<std::complex<double>> state(const Branch& branch) const;
  /// Derivative of the admittance by the branch's value: -1/R², jω, -1/(jωL²); 0 of what has no admittance.
  std::complex<double> admittance_slope(const BranchModel& model) const;
};

}  // namespace ohmwright::circuit
