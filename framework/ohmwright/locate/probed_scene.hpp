#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <unordered_map>
#include <vector>

#include <boost/container_hash/hash.hpp>

#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/locate/prober.hpp>

namespace ohmwright::locate {

/// A scene with its test points, prepared for one kind of probe. Between source files of this area: what is prepared
/// (probed_scene), which branches can matter (circumstances), what an instance makes of them (settled_instance), what
/// opens once it is hot (opens_hot), a breaker that trips (tripped_breaker), what an instrument shows (scene_readings).
class Prober::ProbedScene {
 public:
  ProbedScene(const FaultList& faults, const Site& site, Excitation excitation, const Meter& meter);

  const Scene& scene() const { return scene_; }
  /// Of instances that differ in nothing that matters at this test point, one prediction.
  const std::vector<PredictedOutcome>& predict(const Instance& instance, std::size_t test_point, bool low_impedance);

 private:
  /// What of an instance matters at a test point, as numbers that are equal when it is.
  using Circumstances = std::vector<std::uint64_t>;
  /// Test points that lift the same leads, and so share a network.
  struct Group {
    std::vector<PartTerminal> lifted;
    std::vector<std::size_t> test_points;
    std::vector<circuit::NodePair> pairs;      ///< of ohms and volts
    std::vector<circuit::BranchIndex> around;  ///< of amperes
    std::optional<circuit::Ohmmeter> ohmmeter;
    std::optional<circuit::Voltmeter> voltmeter;                ///< its input a load of 10 megohms
    std::optional<circuit::Voltmeter> low_impedance_voltmeter;  ///< 10 kilohms, made once it is asked for
    std::optional<circuit::Voltmeter> across_what_opens;        ///< made once a fault may open what gets hot
    std::optional<circuit::ClampAmmeter> ammeter;
    std::optional<circuit::ClampAmmeter> around_supply;  ///< made once a fault may trip the breaker
    /// By all that is changed: whether the breaker has tripped.
    std::unordered_map<Circumstances, bool, boost::hash<Circumstances>> tripped;
  };
  struct Place {
    Group* group = nullptr;
    Probe probe = Probe::ohms;
    std::size_t index = 0;       ///< among the group's pairs or clamped branches
    bool low_impedance = false;  ///< of the reading at hand
    /// By branches that only faults make conduct: which branches matter then.
    std::map<std::vector<circuit::BranchIndex>, std::vector<bool>> matters;
    std::unordered_map<Circumstances, std::vector<PredictedOutcome>, boost::hash<Circumstances>> predictions;
  };
  /// A contact that may be in more than one state, with the state it has now.
  struct Wavering {
    const PlacedElement* element = nullptr;
    std::size_t choice = 0;
    std::uint64_t source = 0;    ///< whose state it is; 0 for one that is another way at every reading
    std::uint64_t of_value = 0;  ///< whose error its resistance is, where that stays
  };

  /// The scene with every part good.
  struct AsBuilt {
    std::vector<double> spread;
    std::vector<double> values;
    std::vector<std::uint64_t> sources;
    std::vector<double> of_temperature;
    std::vector<std::vector<Wavering>> wavering;  ///< by part
  };

  PredictedOutcome on_a_dead_circuit(double weight) const;
  /// Volts that a meter shows of a wire that nothing feeds, at most [V].
  double stray_volts(bool low_impedance) const;

  void sort_test_points();
  void note_as_built();
  /// Of a contact's state, which another temperature makes another state.
  std::uint64_t source_of_state(std::size_t part, std::size_t index) const;
  void prepare(Group& group);
  std::vector<circuit::Change> changes_of(const Group& group) const;
  void find_what_matters();
  std::vector<bool> what_matters_at(const Place& place, std::span<const circuit::BranchIndex> conducting) const;
  void settle(const Instance& instance);
  void leave_out_what_does_not_matter(Place& place);
  Circumstances circumstances() const;
  Circumstances circumstances(const Place& place) const;
  bool is_tripped(Group& group);
  /// How the contacts stand that stay so.
  void note_contacts(PredictedOutcome& outcome) const;
  void read_in_every_state(const Place& place, std::vector<PredictedOutcome>& outcomes);
  void settle_part(const Instance& instance, std::size_t part, std::uint16_t fault);
  void take(const PlacedElement& element, const ElementChoice& choice, bool as_built);
  const circuit::Voltmeter& low_impedance_voltmeter(Group& group) const;
  bool may_trip(const circuit::BranchModel& built, const ElementChoice& choice) const;
  bool trips(Group& group) const;
  bool open_what_gets_hot(Group& group);
  void read_hot_or_cold(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void read_or_trip(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void read(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void read_ohms(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void read_volts(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void read_amperes(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes);
  void bend_wide_shares(const Place& place, double middle_ohm, PredictedOutcome& outcome);
  /// What an ohmmeter shows if a branch had that resistance [ohm].
  std::optional<double> ohms_with(const Place& place, circuit::BranchIndex branch, double ohm);
  PredictedOutcome value_outcome(Probe probe, double weight, double value_in_si) const;

  const FaultList& faults_;
  const Appliance& appliance_;
  const Meter& meter_;
  Scene scene_;
  std::vector<std::unique_ptr<Group>> groups_;
  std::vector<Place> places_;                     ///< by test point; without a group where the excitation is another
  std::vector<std::uint64_t> temperature_marks_;  ///< by part, of its zone: see `source`
  std::vector<std::uint64_t> branch_marks_;       ///< the same by branch; 0 for one that is of no part
  std::vector<circuit::BranchIndex> joined_;      ///< branches that are one point, leads lifted or not
  std::vector<circuit::BranchIndex> conducting_;  ///< others that may conduct in a good appliance
  std::vector<bool> conducts_when_good_;          ///< by branch: it is no place where only a fault puts something
  AsBuilt as_built_;
  std::vector<PredictedOutcome> tripped_;  ///< what is read behind a breaker that has tripped

  // Of the instance at hand, kept for their memory:
  std::vector<circuit::Change> changes_;
  std::vector<circuit::BranchIndex> touched_;  ///< of which the following are not as built
  std::vector<double> spread_;                 ///< relative, by branch
  std::vector<double> values_;                 ///< SI, by branch
  std::vector<std::uint64_t> sources_;         ///< by branch: whose error its spread is; 0 for nobody's
  std::vector<double> of_temperature_;         ///< by branch: `ElementChoice::share_of_temperature`
  std::vector<double> of_cut_;                 ///< by branch: `ElementChoice::of_cut`
  std::vector<std::uint64_t> cut_sources_;     ///< by branch: where the wire of which it is a piece is cut
  std::vector<double> sensitivities_;
  std::vector<Wavering> wavering_;
  std::vector<circuit::BranchIndex> joined_by_faults_;
  std::vector<const OpensHot*> opening_;  ///< what its faults open once it is hot; in the changes it is whole
  bool may_trip_ = false;  ///< a fault puts so little resistance where there is none that the breaker may trip
};

}  // namespace ohmwright::locate
