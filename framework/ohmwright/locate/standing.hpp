#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/locate/next_step.hpp>

namespace ohmwright::locate {

/// Readings of ohms that show just what a good appliance would, but for a k, an M or a point.
struct UnitSlip {
  std::vector<std::size_t> readings;  ///< by index, ascending
  double factor = 1.0;                ///< they show so many times as much: 1000, 10, and the other way round
};

/// A part that may be a good one of another class than its appliance's file states.
struct FittingClass {
  std::size_t part = 0;
  std::string title;  ///< of that class
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
    range,        ///< OL on a range that nobody stated: a good part shows it on a low one
    reading,      ///< a code says so, and no reading does
    temperature,  ///< of `lacking`, a zone: at one that it may have, good parts show the same
    judgement,    ///< of `lacking`, a part: it was read alone, and no fault of it that is known explains what it showed
    state,        ///< of `lacking`, one of `Site::states_not_said`: as that stands, good parts show the same
    unit,         ///< a second look at the unit: see `slip`
  };

  Form form = Form::open;
  std::vector<std::size_t> parts;            ///< of the likeliest set, or the sure ones of it
  std::optional<std::size_t> outside_cause;  ///< as the parts
  double probability = 0.0;                  ///< that all of these are at fault, be it with more
  bool is_with_more = false;                 ///< the likeliest set holds more, of which these alone are sure
  Lacks lacks = Lacks::nothing;
  std::size_t lacking = 0;                 ///< the zone, the part or the state that `lacks` is of
  std::optional<UnitSlip> slip{};          ///< of units or points, which would clear the parts that are named
  std::optional<std::size_t> warm_part{};  ///< of those named one that its own heat would clear
  bool hangs_on_assumed_volts = false;     ///< parts are named by ohms that a good one has at another supply's volts
  std::optional<FittingClass> fits{};      ///< by which nobody would name these parts

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

/// Where the search stands, given the steps left.
Standing standing(const FaultList& faults, const Diagnosis& diagnosis, const NextStepSettings& settings,
                  std::span<const Step> steps);

/// The part between whose own terminals a test point reads, a lead of it off.
std::optional<std::size_t> part_alone_at(const TestPoint& point);

}  // namespace ohmwright::locate
