#pragma once

#include <vector>

#include <ohmwright/cycles/search/heater_search.hpp>

namespace ohmwright::cycles {

/// A heater draws evenly: its spread, as a share of its load, is less than this.
inline constexpr double even_spread = 0.06;

/// Where a heater's run begins and ends, once its level is known.
class HeaterEdges {
 public:
  /// `load` is the window's without what is short, `least_load` what it rests at; both must outlive the object.
  HeaterEdges(const Window& window, const std::vector<double>& load, const double& least_load)
      : window_(window), load_(load), least_load_(least_load) {}

  /// Whether the load falls to its lowest right after the run and stays there for a while.
  bool drip_follows(const Run& run, double load) const;
  /// Takes off what stands before or after the heater at a lower level.
  void trim(HeaterRun& one) const;
  /// A heater that goes on at a lower, even step (one of two elements is switched off) ends where that ends: clear of
  /// what cooling draws, with a drip time behind it.
  void take_lower_step(double cooling_load, HeaterRun& one) const;

 private:
  const Window& window_;
  const std::vector<double>& load_;
  const double& least_load_;
};

}  // namespace ohmwright::cycles
