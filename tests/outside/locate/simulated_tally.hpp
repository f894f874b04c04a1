#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "simulated_searches.hpp"

namespace ohmwright::locate::testing {

/// Cases of one tenth of the stated probability.
struct Tenth {
  std::size_t searches = 0;  ///< in which it was said at least once
  std::size_t said = 0;
  std::size_t was_so = 0;
  double stated = 0.0;  ///< sum

  double mean_stated() const { return stated / static_cast<double>(said); }
  double share_so() const { return static_cast<double>(was_so) / static_cast<double>(said); }
};

/// What came of many simulated searches.
struct SimulatedTally {
  std::size_t searches = 0;
  std::size_t double_faults = 0;
  std::size_t misreadings = 0;
  std::size_t readings = 0;
  std::size_t separable = 0;            ///< single faults that readings can tell from all else
  std::size_t separable_named = 0;      ///< of those, the part named with 0.95 at the end
  std::size_t named = 0;                ///< parts named with 0.95
  std::size_t condemned = 0;            ///< parts named with 0.995, so that they may be replaced
  std::size_t good_part_named = 0;      ///< with 0.95
  std::size_t good_part_condemned = 0;  ///< with 0.995
  std::array<Tenth, 10> tenths;         ///< of the probability that what is named is at fault
  std::vector<double> overstated;       ///< by search: how much more was stated than was so, on average over its steps
  std::vector<std::string> misses;      ///< a line each: separable and not named, or a good part condemned

  void take(const FaultList& faults, const SimulatedSearch& search, std::span<const PartFault> separable_faults);
  double mean_overstated() const;
  double standard_error_of_overstated() const;
  std::string table() const;
};

}  // namespace ohmwright::locate::testing
