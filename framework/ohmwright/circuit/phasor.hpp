#pragma once

#include <complex>
#include <span>

#include <ohmwright/circuit/branch_state.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::circuit {

/// Root-mean-square phasors; with direct current real, and negative where the probes are the other way round.
using VoltagePhasor = units::quantity<si::electric_potential, std::complex<double>>;
using CurrentPhasor = units::quantity<si::current, std::complex<double>>;

/// What a meter shows of a phasor [V] or [A].
inline Voltage magnitude(const VoltagePhasor& phasor) { return Voltage::from_value(std::abs(phasor.value())); }
inline Current magnitude(const CurrentPhasor& phasor) { return Current::from_value(std::abs(phasor.value())); }

/// The feed of a live network; `line_frequency` is at least 0 Hz, which means direct current.
Feed<std::complex<double>> live_feed(Frequency line_frequency);

/// Derivative of |phasor| for a derivative of the phasor; at a phasor of 0, where |phasor| has a corner, how steeply it
/// rises.
double magnitude_slope(std::complex<double> phasor, std::complex<double> slope);

/// e^jφ of a source, 0 of any other branch.
std::complex<double> source_direction(const BranchModel& model);

}  // namespace ohmwright::circuit
