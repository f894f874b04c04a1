#pragma once

#include <optional>
#include <span>
#include <vector>

#include <ohmwright/circuit/phasor.hpp>
#include <ohmwright/circuit/variation.hpp>

namespace ohmwright::circuit {

/// A clamp ammeter on a live network, in one set-up, around one branch at a time of a list. It loads nothing.
///
/// All sources have the line frequency, which may be 0 for direct current. The network must outlive the meter.
class ClampAmmeter {
 public:
  class Variant;

  /// Throws as `Voltmeter`.
  ClampAmmeter(const Network& network, Frequency line_frequency, std::span<const BranchIndex> branches,
               std::span<const Change> changes = {});

  /// Current through a branch of the list, from its `from` to its `to` [A]; also through a closed branch or a source.
  /// Nothing where closed branches form a loop: without any resistance no value says how the current divides.
  std::optional<CurrentPhasor> reading(std::size_t probed) const;

  /// Derivative of the magnitude of a reading by the value of every branch [A per ohm, farad, henry or volt]; 0 for
  /// closed and open branches, and all 0 where there is no reading.
  void sensitivities(std::size_t probed, std::span<double> by_value) const;

  /// The same network with some branches changed; throws as the constructor. The ammeter must outlive the variant and
  /// stay where it is.
  Variant with(std::span<const Change> changes) const;

 private:
  friend class Variant;

  /// A branch of the list as the prepared network has it.
  struct Probed {
    BranchIndex branch = 0;
    bool is_known = false;  ///< a source or a joined branch: its current is no admittance times a voltage
    bool undetermined = false;
    std::complex<double> current;
    std::vector<std::complex<double>> to_branches;  ///< of a known one: current for 1 A put in at each branch
    std::vector<std::complex<double>> to_knowns;    ///< the same for 1 V in each source, 0 for other coordinates
  };

  void find_known(Probed& probed, std::size_t known) const;

  Prepared<std::complex<double>> prepared_;
  std::vector<Probed> probed_;
};

/// A faulty variant of a live network. It belongs to one thread: a reading may solve it anew, once.
class ClampAmmeter::Variant {
 public:
  std::optional<CurrentPhasor> reading(std::size_t probed);
  void sensitivities(std::size_t probed, std::span<double> by_value);

 private:
  friend class ClampAmmeter;
  Variant(const ClampAmmeter& ammeter, Variation<std::complex<double>> variation)
      : ammeter_(&ammeter), variation_(std::move(variation)) {}

  /// What the sensitivities of a current follow from.
  struct Responding {
    std::complex<double> current;
    std::vector<std::complex<double>> voltages;     ///< of the branches
    std::vector<std::complex<double>> to_branches;  ///< current for 1 A put in at each branch
    std::vector<std::complex<double>> to_sources;   ///< current for 1 V of each source, 0 for other branches
  };
  Responding by_update(const Probed& at) const;
  Responding solved(BranchIndex branch);
  std::optional<CurrentPhasor> closed_by_update(BranchIndex branch);
  std::optional<CurrentPhasor> solved_reading(BranchIndex branch);

  const ClampAmmeter* ammeter_;
  Variation<std::complex<double>> variation_;
};

}  // namespace ohmwright::circuit
