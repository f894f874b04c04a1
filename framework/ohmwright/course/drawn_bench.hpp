#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/circuit/network.hpp>
#include <ohmwright/course/bench.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/faults.hpp>

namespace ohmwright::course {

/// Where everything lies that is left open, in place of draws: from one end of a range to the other [0…1].
struct HeldShares {
  double first_value = 0.0;   ///< of every part's first element or, of a wire that is cut in two, where along it
  double other_values = 0.0;  ///< of its further ones or, of a wire that is cut, all of its length
  double contact = 0.0;       ///< closed is a contact of which more than this share of such parts are
  double temperature = 0.0;   ///< of every zone
  double loose_ohm = 0.0;     ///< what a contact that comes and goes has beside its ohms while it conducts [ohm]
};

/// One appliance out of all that its file may stand for: its faults, and every value that tolerances, temperatures and
/// the supply leave open, drawn once.
class DrawnBench {
 public:
  /// `bench` and `faults` (made of its appliance) must outlive it.
  DrawnBench(const Bench& bench, const locate::FaultList& faults, const locate::Candidate& truth, DrawStream& draws);
  /// The same at an end of its ranges, for an ohmmeter.
  DrawnBench(const Bench& bench, const locate::FaultList& faults, const locate::Candidate& truth,
             const HeldShares& held);

  /// The value at the probes [ohm, V, A]; nothing where no way leads from one probe to the other. `draws` tells what
  /// comes and goes from reading to reading.
  std::optional<double> value_at(const locate::Measurement& measurement, DrawStream& draws) const;

 private:
  struct Wiring;

  Situation situation_of(std::size_t part, const locate::Measurement& measurement, Excitation excitation) const;
  /// `excitation` drives the parts at fault, the reading's own all others.
  void add_parts(const locate::Measurement& measurement, Excitation excitation, DrawStream& draws,
                 Wiring& wiring) const;
  void add_part(std::size_t part, const locate::Measurement& measurement, Excitation excitation, DrawStream& draws,
                Wiring& wiring) const;
  double live_value(const TestPoint& point, Wiring& wiring) const;
  void keep_whole(std::size_t part, const Situation& situation, std::vector<Element>& elements) const;
  /// What a fault opens once it is hot: two points of a part.
  struct Opening {
    std::size_t part = 0;
    std::uint16_t from = 0;
    std::uint16_t to = 0;
  };
  std::optional<Opening> opens_under_power(std::size_t part) const;
  bool feeds_a_faulty_part(const locate::Measurement& measurement, DrawStream draws) const;
  double value_share(std::size_t part, std::size_t element) const;
  double length_share(std::size_t part) const;
  double value_of(const Element& element, double share) const;
  circuit::BranchModel model_of(const Element& element, double share, double contact_share) const;
  void add_supply(Wiring& wiring) const;

  const Bench* bench_;
  const locate::FaultList* faults_;
  const locate::Candidate* truth_;
  std::optional<HeldShares> held_;
  std::vector<std::vector<double>> element_shares_;  ///< by part and element: where in its range it lies [0…1)
  std::vector<std::vector<double>> zone_shares_;     ///< by set-up (0: none) and zone: where in its doubt it lies
  std::vector<Opening> opens_under_power_;
  double supply_share_ = 0.5;
  double stray_farad_ = 0.0;
};

/// One instrument out of all that its data sheet may stand for: gain and test leads off by the same at every reading.
class DrawnMeter {
 public:
  /// `meter` must outlive it.
  DrawnMeter(const Meter& meter, DrawStream& draws);

  /// What it shows of a value, quantised to the resolution of the range that it takes by itself [SI]; nothing is OL.
  std::optional<double> shown(Probe probe, std::optional<double> value, DrawStream& draws) const;

 private:
  const Meter* meter_;
  double gain_share_ = 0.0;
  double lead_ohm_ = 0.0;
};

/// What a meter showed there, as the engine takes it; nothing is OL.
locate::TakenReading taken_reading(const Combination& combination, Probe probe, std::optional<double> shown);

}  // namespace ohmwright::course
