#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

/// A class that a part may be of in place of the one that its appliance's file states.
struct OtherClass {
  std::shared_ptr<const Part> part;
  std::string title;
};

/// What a search is told before it begins.
struct SearchSettings {
  PriorSettings priors;
  WeightOverrides weights;
  std::vector<std::size_t> repaired;  ///< parts that were worked on before
  ReadingModel readings;
  SignModel signs;
  NextStepSettings steps;
  /// The other classes that are known of a part, where a good one of them may be taken for a drifted one: a sensor's.
  /// Asked before a part is named; empty: of none.
  std::function<std::vector<OtherClass>(const PlacedPart& part)> other_classes = {};
};

/// One search for a fault: the evidence so far, what is believed, and the steps from here.
class Search {
 public:
  /// `appliance` and `meter` must outlive the search; `site` says what holds before any set-up.
  Search(const Appliance& appliance, const Meter& meter, const Site& site, const SearchSettings& settings);

  /// Ohms that were read once all had cooled (`SetUp::cools_down`) stand for others that were read there as found.
  void add(TakenReading reading);
  /// A test point that cannot be reached here: no step asks for it again, in any set-up.
  void cannot_reach(std::size_t test_point);
  /// The test point that was last out of reach is not.
  void reach_again();
  /// The first so many readings are of earlier visits: since then all was closed, nothing is set up, and nobody knows
  /// whether it is plugged in.
  void was_closed_before(std::size_t readings) { first_since_closed_ = readings; }
  /// Takes the last reading back. False when there is none.
  bool take_back();
  Signs& signs() { return signs_; }
  /// Takes over what was read, seen and found out of reach in a search of the same appliance: at another site, say.
  void take_over(const Search& other);
  /// What is off, set up and live after the readings so far.
  WorkState work();

  /// Weighs everything anew; the results below hold until evidence is added.
  void think();
  const Diagnosis& diagnosis() const { return diagnosis_; }
  const Standing& standing() const { return standing_; }
  std::span<const Step> steps() const { return steps_; }

  std::span<const TakenReading> readings() const { return readings_; }
  const SearchSettings& settings() const { return settings_; }
  Reasoner& reasoner() { return reasoner_; }

 private:
  struct Taken {
    TakenReading reading;
    std::optional<std::size_t> other;  ///< index of the one that stands for it, once all had cooled
  };

  bool may_be_energised(bool insulation_is_good) const;
  bool is_of_unknown_range(const TakenReading& reading) const;
  bool has_cooled(const TakenReading& reading) const;
  void keep_those_that_stand();
  bool is_of_a_warm_one(const TakenReading& as_found, const TakenReading& cooled) const;
  bool disagrees(const TakenReading& reading) const;
  std::vector<Measurement> done(std::ptrdiff_t asked_times) const;
  std::vector<Step> steps_from_here(const NextStepSettings& settings, std::ptrdiff_t asked_times = 1);
  std::vector<Step> steps_that_repeat();
  void hold_back_what_no_reading_says();
  void hold_back_what_a_temperature_explains();
  void hold_back_what_a_state_explains();
  void ask_again_now_that_it_is_known(std::size_t zone);
  void ask_turned_away_from(const SetState& as_found);
  void doubt_what_a_slip_explains();
  void doubt_what_own_heat_explains();
  void ask_again_once_it_has_cooled(std::size_t part);
  void ask_again(const Measurement& measurement);
  void settle_what_was_read_alone_twice();
  void put_the_part_named_first();
  std::size_t times_read_alone_alike(std::size_t part) const;
  void hold_back_beside_what_nothing_explains();
  std::optional<std::size_t> part_read_alone_unexplained() const;
  void doubt_what_assumed_volts_explain();
  void doubt_what_another_class_explains();
  bool is_explained_by(const OtherClass& other, std::size_t part) const;
  void doubt_leads_that_only_show_open();
  void ask_for_ranges();
  void put_what_bears_it_out_first();
  void put_insulation_first();
  void put_dead_before_live();
  void put_earth_before_live();

  const Appliance& appliance_;
  SearchSettings settings_;
  FaultList faults_;
  Prober prober_;
  Reasoner reasoner_;
  std::vector<bool> leaks_;  ///< by fault, see `faults_that_leak`
  std::vector<Taken> taken_;
  std::vector<TakenReading> readings_;  ///< those of `taken_` that no other stands for
  std::size_t first_since_closed_ = 0;  ///< of `readings_`
  std::vector<std::size_t> out_of_reach_;
  Signs signs_;
  Diagnosis diagnosis_;
  Standing standing_;
  std::vector<Step> steps_;
};

}  // namespace ohmwright::locate
