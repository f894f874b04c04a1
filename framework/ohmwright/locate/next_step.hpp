#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/work.hpp>

namespace ohmwright::locate {

/// What is asked for, and when it is enough.
struct NextStepSettings {
  bool allow_live = false;
  bool insulation_is_good =
      false;  ///< insulation was read and is within limits: then replacing and testing is an offer
  /// Read once more after a set-up that makes no difference, too: a slip is hardly made there again in the same way.
  bool set_ups_that_change_nothing = false;
  double likely = 0.95;             ///< a part named with this probability is likely
  double replace = 0.995;           ///< and may be replaced with this one: one wrong replacement in two hundred
  double least_gain_bits = 0.02;    ///< a step that tells less does not pay
  std::size_t most_instances = 96;  ///< that the expectation is taken over
  WorkTimes times;
};

/// One thing to do.
struct Step {
  enum class Form : std::uint8_t {
    measure,  ///< `measurement`
    look,     ///< at an outside cause, or at a part
    replace,  ///< the part, and see whether it runs
  };

  Form form = Form::measure;
  Measurement measurement;
  std::size_t subject = 0;  ///< the look by its number (appliance/looks.hpp), or the part to replace
  double minutes = 0.0;
  double gain_bits = 0.0;       ///< expected fall of the entropy over "which parts are at fault"
  double unsettled_bits = 0.0;  ///< expected entropy after it, endings in which parts are named not counted
  double minutes_to_go = 0.0;   ///< of it, and of what it is expected to leave, at the rate of the best steps

  bool leaves_set_up = false;  ///< the set-up at hand makes no difference to it, and stays

  double gain_per_minute() const { return gain_bits / minutes; }
};

/// Probability of what a look, by its number, is at [0…1].
double probability_of_look(const FaultList& faults, const Diagnosis& diagnosis, std::size_t look);

/// Every step that is possible and not done yet, best first: by the minutes to go, a look ahead by one step. A cheap
/// step that tells a little comes after a dearer one that ends the search, and last of all a look at what the evidence
/// speaks against. No set-up is asked for that makes no difference. `done` are the measurements taken and that
/// could not be reached, `looked_at` the looks, by their numbers.
std::vector<Step> next_steps(Reasoner& reasoner, const Diagnosis& diagnosis, const WorkState& state,
                             const NextStepSettings& settings, std::span<const Measurement> done,
                             std::span<const std::size_t> looked_at);

}  // namespace ohmwright::locate
