#pragma once

#include <optional>
#include <span>
#include <vector>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

/// What a search is told before it begins.
struct SearchSettings {
  PriorSettings priors;
  WeightOverrides weights;
  std::vector<std::size_t> repaired;  ///< parts that were worked on before
  ReadingModel readings;
  SignModel signs;
  NextStepSettings steps;
};

/// One search for a fault: the evidence so far, what is believed, and the steps from here.
class Search {
 public:
  /// `appliance` and `meter` must outlive the search; `site` says what holds before any set-up.
  Search(const Appliance& appliance, const Meter& meter, const Site& site, const SearchSettings& settings);

  void add(TakenReading reading);
  /// A test point that cannot be reached here: no step asks for it again, in any set-up.
  void cannot_reach(std::size_t test_point);
  /// The test point that was last out of reach is not.
  void reach_again();
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
  bool is_of_unknown_range(const TakenReading& reading) const;
  bool disagrees(const TakenReading& reading) const;
  std::vector<Measurement> done(bool is_asked_twice) const;
  std::vector<Step> steps_from_here(const NextStepSettings& settings, bool is_asked_twice = false);
  void hold_back_what_no_reading_says();
  void hold_back_what_a_temperature_explains();
  void hold_back_what_a_state_explains();
  void ask_again_now_that_it_is_known(std::size_t zone);
  void ask_turned_away_from(const SetState& as_found);
  void doubt_what_a_slip_explains();
  void doubt_what_own_heat_explains();
  void ask_again(const Measurement& measurement);
  void hold_back_beside_what_nothing_explains();
  std::optional<std::size_t> part_read_alone_unexplained() const;
  void doubt_leads_that_only_show_open();
  void ask_for_ranges();
  void put_what_bears_it_out_first();
  void put_insulation_first();
  void put_dead_before_live();

  const Appliance& appliance_;
  SearchSettings settings_;
  FaultList faults_;
  Prober prober_;
  Reasoner reasoner_;
  std::vector<TakenReading> readings_;
  std::vector<std::size_t> out_of_reach_;
  Signs signs_;
  Diagnosis diagnosis_;
  Standing standing_;
  std::vector<Step> steps_;
};

}  // namespace ohmwright::locate
