#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/locate/search.hpp>

namespace ohmwright::locate::testing {

/// What was said at one moment of a search, and whether it was so.
struct Said {
  double probability = 0.0;  ///< that the parts named, or the outside cause, are at fault
  bool is_so = false;
};

/// One search from the first step to its end.
struct SimulatedSearch {
  const Candidate* truth = nullptr;
  std::vector<Said> named;  ///< after each reading or look, the first before any
  std::vector<Said> parts;  ///< after each: every part
  Standing ended;
  bool good_part_named = false;  ///< a part of `ended` is not at fault
  std::size_t steps = 0;
  double minutes = 0.0;
  std::size_t misreadings = 0;
};

/// Draws `count` faulty ones of an appliance, each with a meter of its own, and searches them side by side: in every
/// round ngspice solves all that their next steps read. Live steps are allowed. None where ngspice is not installed.
std::optional<std::vector<SimulatedSearch>> simulate(const FaultList& faults, Search& search, std::size_t count,
                                                     std::uint64_t seed);

}  // namespace ohmwright::locate::testing
