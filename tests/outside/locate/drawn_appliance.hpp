#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <vector>

#include <ohmwright/circuit/network.hpp>
#include <ohmwright/locate/prober.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::locate::testing {

/// What a circuit simulator is asked for one reading. Branches that nothing joins to the black probe are left out.
struct WiredReading {
  Probe probe = Probe::ohms;
  circuit::Network network;
  circuit::NodePair probes;                   ///< of amperes: live and neutral, where nothing loads them
  std::optional<circuit::BranchIndex> clamp;  ///< of amperes; none where no current can come to it
  std::optional<circuit::BranchIndex> supply;
  bool apart = false;  ///< nothing joins the probes
};

/// One appliance out of all that its file may stand for: what is wrong with it, and every value that parts, zones and
/// the supply leave open, drawn once. Wired here by the file's own words, beside `Scene`: of the engine it takes what
/// each kind says of its part, and nothing that the search computes.
class DrawnAppliance {
 public:
  /// The candidate at `share` [0…1) of their prior probabilities laid end to end, and the rest drawn within its
  /// tolerances. `faults` must outlive it.
  DrawnAppliance(const FaultList& faults, double share, ReproducibleStream& stream);

  const Candidate& truth() const { return *truth_; }
  const Appliance& appliance() const { return faults_->appliance(); }
  bool has_fault(std::size_t part) const { return faults_->fault_of(*truth_, part) != not_found; }

  /// `stream` tells what comes and goes from reading to reading.
  WiredReading wired_for(const Measurement& measurement, ReproducibleStream& stream) const;

 private:
  struct Wiring;

  Situation situation_of(std::size_t part, const Measurement& measurement, Excitation excitation) const;
  std::set<std::size_t> parts_that_stay_cold(const Measurement& measurement, ReproducibleStream stream) const;
  void keep_whole(std::size_t part, const Situation& situation, std::vector<Element>& elements) const;
  void add_part(std::size_t part, const Measurement& measurement, ReproducibleStream& stream, Wiring& wiring) const;
  circuit::BranchModel model_of(const Element& element, double share, double contact_share) const;
  static circuit::BranchModel while_it_is_bad(const Element& element, double share, double contact_share);

  const FaultList* faults_;
  const Candidate* truth_;
  std::vector<std::vector<double>> element_shares_;  ///< by part and element: where in its range it lies [0…1)
  std::vector<std::vector<double>> zone_shares_;     ///< by set-up (0: none) and zone: where in its doubt it lies
  double supply_share_ = 0.5;
  double stray_farad_ = 0.0;
};

}  // namespace ohmwright::locate::testing
