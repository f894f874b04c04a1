#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/locate/next_step.hpp>

namespace ohmwright::locate {

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
  };

  Form form = Form::open;
  std::vector<std::size_t> parts;            ///< of the likeliest set
  std::optional<std::size_t> outside_cause;  ///< of the likeliest set
  double probability = 0.0;                  ///< that all of these are at fault, be it with more
  Lacks lacks = Lacks::nothing;
  std::size_t lacking = 0;  ///< the zone or the part that `lacks` is of

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

/// The zone, measured by nobody, that may well have a temperature at which a part that `standing` names is no longer
/// likely to be at fault; nothing where the part does not change with temperature, or where none clears it.
///
/// Asks for a diagnosis at each of several temperatures: for a search that is about to name a part.
std::optional<std::size_t> zone_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                               const Signs& signs, const Standing& standing,
                                               const NextStepSettings& settings);

/// The part between whose own terminals a test point reads, a lead of it off.
std::optional<std::size_t> part_alone_at(const TestPoint& point);

}  // namespace ohmwright::locate
