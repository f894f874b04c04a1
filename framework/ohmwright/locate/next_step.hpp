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
      false;                      ///< insulation was read and is within limits: then replacing and testing is an offer
  double likely = 0.95;           ///< a part named with this probability is likely
  double replace = 0.995;         ///< and may be replaced with this one: one wrong replacement in two hundred
  double least_gain_bits = 0.02;  ///< a step that tells less does not pay
  std::size_t most_instances = 96;  ///< that the expectation is taken over
  WorkTimes times;
};

/// One thing to do.
struct Step {
  enum class Form : std::uint8_t {
    measure,  ///< `measurement`
    look,     ///< at the outside cause
    replace,  ///< the part, and see whether it runs
  };

  Form form = Form::measure;
  Measurement measurement;
  std::size_t subject = 0;  ///< outside cause to look at, or part to replace
  double minutes = 0.0;
  double gain_bits = 0.0;       ///< expected fall of the entropy over "which parts are at fault"
  double unsettled_bits = 0.0;  ///< expected entropy after it, endings in which parts are named not counted
  double minutes_to_go = 0.0;   ///< of it, and of what it is expected to leave, at the rate of the best steps

  bool leaves_set_up = false;  ///< the set-up at hand makes no difference to it, and stays

  double gain_per_minute() const { return gain_bits / minutes; }
};

/// Where the search stands.
struct Standing {
  enum class Form : std::uint8_t {
    open,           ///< measure on
    likely,         ///< parts are likely at fault; a reading of each alone would settle it
    settled,        ///< it may be replaced
    no_more_steps,  ///< no step that is allowed tells more
    sealed_system,  ///< stop: licensed refrigerant work
  };

  /// Of an open one: what its parts would need before they could be named.
  enum class Lacks : std::uint8_t {
    nothing,
    range,    ///< OL on a range that nobody stated: a good part shows it on a low one
    reading,  ///< a code says so, and no reading does
  };

  Form form = Form::open;
  std::vector<std::size_t> parts;            ///< of the likeliest set
  std::optional<std::size_t> outside_cause;  ///< of the likeliest set
  double probability = 0.0;                  ///< that all of these are at fault, be it with more
  Lacks lacks = Lacks::nothing;

  bool is_named() const { return form == Form::likely || form == Form::settled; }
};

/// Sets of parts at fault, each with its probability, likeliest first: fault modes of one part are one answer.
struct AnswerSet {
  std::vector<std::size_t> parts;
  std::optional<std::size_t> outside_cause;
  double probability = 0.0;
};
std::vector<AnswerSet> answers(const FaultList& faults, const Diagnosis& diagnosis);

/// Probability that all parts and the outside cause of `standing` are at fault, be it with more.
double probability_of(const FaultList& faults, const Diagnosis& diagnosis, const Standing& standing);

/// Every step that is possible and not done yet, best first: by the minutes to go, a look ahead by one step. A cheap
/// step that tells a little comes after a dearer one that ends the search, and last of all a look at what the evidence
/// speaks against. No set-up is asked for that makes no difference. `done` are the measurements taken and that
/// could not be reached, `looked_at` the outside causes.
std::vector<Step> next_steps(Reasoner& reasoner, const Diagnosis& diagnosis, const WorkState& state,
                             const NextStepSettings& settings, std::span<const Measurement> done,
                             std::span<const std::size_t> looked_at);

/// Where the search stands, given the steps left.
Standing standing(const FaultList& faults, const Diagnosis& diagnosis, const NextStepSettings& settings,
                  std::span<const Step> steps);

}  // namespace ohmwright::locate
