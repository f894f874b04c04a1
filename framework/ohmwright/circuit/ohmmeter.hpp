#pragma once

#include <optional>
#include <span>

#include <ohmwright/circuit/variation.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::circuit {

/// An ohmmeter on a network whose supply is unplugged, in one set-up, at a list of pairs of nodes.
///
/// It reads after its own current has settled: capacitances are open, inductances closed, sources taken away. Prepared
/// once, it may be read from several threads. It refers to the network, which must outlive it.
class Ohmmeter {
 public:
  class Variant;

  /// `changes` are made before anything is read: a contact's position, a lifted lead, a first fault.
  Ohmmeter(const Network& network, std::span<const NodePair> pairs, std::span<const Change> changes = {});

  /// Resistance between the nodes of a pair [ohm]: 0 where conductors join them; nothing where no way leads from one to
  /// the other, which a meter shows as over-range (as it does past its range, which is not decided here).
  std::optional<Resistance> reading(std::size_t pair) const;

  /// Derivative of a reading by the value of every branch: [1] for a resistance, 0 for all else. `by_value` has one
  /// place a branch; all are 0 where the meter shows over-range. Adjoint method: dR/dr = (current in r for 1 A at the
  /// probes)². Source: S. W. Director, R. A. Rohrer, IEEE Trans. Circuit Theory 16 (1969), 318 (from memory).
  void sensitivities(std::size_t pair, std::span<double> by_value) const;

  /// The same network with some branches changed. The ohmmeter must outlive the variant and stay where it is.
  Variant with(std::span<const Change> changes) const;

 private:
  Prepared<double> prepared_;
};

/// A faulty variant of a prepared network. It belongs to one thread: a reading may solve it anew, once.
class Ohmmeter::Variant {
 public:
  std::optional<Resistance> reading(std::size_t pair) {
    if (variation_.separated(pair)) return std::nullopt;
    return Resistance::from_value(variation_.impedance(pair));
  }
  void sensitivities(std::size_t pair, std::span<double> by_value) const;

 private:
  friend class Ohmmeter;
  explicit Variant(Variation<double> variation) : variation_(std::move(variation)) {}

  Variation<double> variation_;
};

}  // namespace ohmwright::circuit
