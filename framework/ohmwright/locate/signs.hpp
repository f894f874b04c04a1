#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/locate/faults.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::locate {

/// A symptom that was looked for.
struct SymptomSign {
  std::string symptom;
  bool is_there = true;
};

/// Something that was looked at: the gasket, the drain, the shaft of a timer.
struct LookSign {
  std::size_t look = 0;  ///< its number (appliance/looks.hpp)
  bool found = false;
};

/// A code that the control's memory holds: the faults it speaks of, whether it is fresh, and how often it was set.
struct CodeSign {
  std::string code;
  std::vector<PartFault> speaks_of;
  bool is_old = false;  ///< set long ago, or before the last repair
  std::size_t count = 1;
};

/// A part that was replaced to see what happens.
struct ReplacedSign {
  std::size_t part = 0;
  bool cured = false;
};

/// What happened after it had been without power, which thaws it.
struct ThawSign {
  std::optional<Duration> unplugged;  ///< how long; empty: long enough
  bool ran_well = false;              ///< for days, where `for_how_long` does not say it
  std::optional<Duration> for_how_long;
};

/// Everything that is known without a meter. What is said twice counts once; of a yes and a no the later holds.
struct Signs {
  std::vector<SymptomSign> symptoms;
  std::vector<LookSign> looked_at;
  std::vector<CodeSign> codes;
  /// It was thawed before anybody looked: what the frost looks like now says little.
  bool was_thawed = false;
  std::optional<ThawSign> thaw;  ///< empty: nobody knows
  std::vector<ReplacedSign> replaced;
};

/// What is assumed of signs (docs/arithmetic.md, "Finding the fault"); no source.
struct SignModel {
  double without_cause = 0.05;        ///< that a symptom shows though nothing here brings it about
  double trip_without_cause = 0.005;  ///< the same of what nothing but a leak, a short or burning does
  double overlooked = 0.05;           ///< that a look misses what is there
  double imagined = 0.005;            ///< that it sees one that is not there: a torn belt in the hand is one
  double code_without_fault = 0.03;   ///< that a board holds a code though the fault is not there
  double code_with_fault = 0.85;
  double thawed_frost_weight = 0.3;  ///< what frost evidence still weighs after a thaw [0…1], as an exponent
  double trip_untold = 0.05;         ///< that nobody tells of a breaker that has tripped
  double cured_by_chance = 0.05;     ///< that a part which was sound cures it, or one at fault does not
  /// Medians and spreads (standard deviations of the logarithm) of how long it takes.
  double hours_to_thaw = 8.0;
  double spread_of_thaw = 0.7;
  double days_to_frost_again = 4.0;
  double spread_of_frost = 0.8;
  double days_to_fail_at_once = 0.2;  ///< of a fault that needs no frost
  double spread_of_fail = 1.0;

  /// That a look finds what is there, or what is not.
  double found_if(bool is_there) const { return is_there ? 1.0 - overlooked : imagined; }
};

/// Probability of the signs if the candidate is true.
double likelihood_of_signs(const FaultList& faults, const Candidate& candidate, const Signs& signs,
                           const SignModel& model);

/// Whether a symptom tells of frost, which a thaw takes away.
bool is_of_frost(const std::string& symptom);

/// Whether a candidate has what a look, by its number, is at.
bool is_seen_by_look(const FaultList& faults, const Candidate& candidate, std::size_t look);

/// Whether somebody saw the breaker trip.
bool tells_of_tripped_breaker(const Signs& signs);

/// Whether somebody saw what leaking refrigerant leaves behind.
bool speaks_of_refrigerant_leak(const Signs& signs);

/// Whether a symptom that is there, or a cause that was looked at and found, speaks of the sealed refrigerant system:
/// then nothing here is to be replaced.
bool speaks_of_sealed_system(const Appliance& appliance, const Signs& signs);

}  // namespace ohmwright::locate
