#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/locate/search.hpp>

namespace ohmwright::locate {

/// How far a plan goes.
struct PlanSettings {
  std::size_t depth = 8;        ///< steps one after the other
  std::size_t width = 4;        ///< answers told apart at each
  double least_reached = 0.01;  ///< a branch that is reached with less than this probability ends [0…1]
};

/// What a step may find, and where the plan goes on then.
struct PlanAnswer {
  enum class Form : std::uint8_t {
    reading,  ///< `readings`
    yes,      ///< what it was looked for was found
    no,       ///< it was looked at and is in order
  };

  Form form = Form::reading;
  SeenReading readings;
  double probability = 0.0;  ///< once the step is taken [0…1]
  std::size_t next = 0;      ///< index into `Plan::places`
};

/// A place of the plan: where the search stands there, and the step to take unless it ends.
struct PlanPlace {
  double reached = 0.0;  ///< probability of coming here [0…1]
  Standing standing;
  std::size_t likeliest = 0;  ///< candidate of that standing: index into `FaultList::candidates`
  WorkState work;             ///< before the step
  std::optional<Step> step;
  std::vector<PlanAnswer> answers;
};

/// A decision tree: which step first, and for each answer the next one.
struct Plan {
  std::vector<PlanPlace> places;  ///< the first is where the search is now
  double minutes = 0.0;           ///< expected, of the steps of the plan [min]
  double named = 0.0;             ///< probability of coming to an end where a fault is named, or the search is to stop
};

/// Plans on from where the search is; the search is as before afterwards. Parts are not replaced to see what happens:
/// a plan measures and looks.
Plan make_plan(Search& search, const PlanSettings& settings = {});

}  // namespace ohmwright::locate
