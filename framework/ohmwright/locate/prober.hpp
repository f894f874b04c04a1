#pragma once

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <tuple>
#include <utility>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/locate/faults.hpp>
#include <ohmwright/locate/prediction.hpp>
#include <ohmwright/locate/scene.hpp>

namespace ohmwright::locate {

/// A reading that was taken or could be: where, and after which set-up.
struct Measurement {
  std::size_t test_point = 0;
  std::optional<std::size_t> set_up;
  bool low_impedance = false;  ///< volts on the meter's low-impedance input, under which a ghost falls

  friend bool operator==(const Measurement&, const Measurement&) = default;
};

/// A candidate with everything settled that stays as it is from reading to reading: how far a fault goes, what a part
/// of which nothing is known is made of.
struct Instance {
  /// The choice that an element takes. Elsewhere (another excitation cuts it into other choices) the one at the same
  /// place of its range.
  struct Settled {
    std::size_t part = 0;
    std::size_t element = 0;
    double place = 0.5;           ///< 0…1, middle of the choice's share of the range
    bool is_whole_range = false;  ///< too many choices: the middle, with the whole range as its spread
  };

  const Candidate* candidate = nullptr;
  double weight = 1.0;  ///< share of this instance among those of its candidate [0…1]
  std::vector<Settled> settled;
};

/// Predicts readings: what a meter would show at a test point of an appliance with a given fault.
///
/// Scenes and prepared networks are made when first asked for and kept. Belongs to one thread.
class Prober {
 public:
  /// `faults` and `meter` must outlive the prober.
  Prober(const FaultList& faults, Site site, const Meter& meter, const ReadingModel& model);
  Prober(const Prober&) = delete;
  Prober& operator=(const Prober&) = delete;
  ~Prober();

  /// The instances of a candidate; their weights sum up to 1.
  std::vector<Instance> instances(const Candidate& candidate);

  /// The ways in which a reading may come out of an instance. Instances that differ in nothing that matters to this
  /// reading have one prediction, which is told by its address; it stays as long as the prober.
  const std::vector<PredictedOutcome>& predict(const Instance& instance, const Measurement& measurement);

  const FaultList& faults() const { return faults_; }
  const Appliance& appliance() const { return faults_.appliance(); }
  const Meter& meter() const { return meter_; }
  const Site& site() const { return site_; }
  const ReadingModel& model() const { return model_; }
  /// Resistance of the test leads [ohm], which is subtracted from ohms.
  double lead_resistance() const;

 private:
  class ProbedScene;
  ProbedScene& scene(std::optional<std::size_t> set_up, Excitation excitation);
  /// The model of a part where least is known of it: at the site, or as it was for a reading that was taken before its
  /// zone was measured.
  const PlacedModel& vaguest_model(std::size_t part, std::uint16_t fault);
  /// Probability that the set-up did not take, and that the reading is one as found.
  double share_missed(std::optional<std::size_t> set_up) const;

  const FaultList& faults_;
  Site site_;
  const Meter& meter_;
  ReadingModel model_;
  std::map<std::pair<std::size_t, Excitation>, std::unique_ptr<ProbedScene>> scenes_;
  using Outcomes = std::vector<PredictedOutcome>;
  /// By what it reads after the set-up, what as found, and the set-up.
  std::map<std::tuple<const Outcomes*, const Outcomes*, std::size_t>, Outcomes> mixed_;
};

}  // namespace ohmwright::locate
