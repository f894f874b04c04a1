#pragma once

#include <cstddef>
#include <vector>

#include <ohmwright/cycles/search/heater_edges.hpp>
#include <ohmwright/cycles/search/heater_search.hpp>

namespace ohmwright::cycles {

/// Describes stretches of load: their level, how even they are, and what the load does before and after them.
class HeaterRuns {
 public:
  /// `load` is the window's without what is short, `least_load` what it rests at; all must outlive the object.
  HeaterRuns(const Window& window, const std::vector<double>& load, const double& least_load, const HeaterEdges& edges);

  HeaterRun describe(const Run& run) const;
  /// Sum of the load over samples [begin, end).
  double sum(std::size_t begin, std::size_t end) const { return sum_[end] - sum_[begin]; }

 private:
  void take_level_while_on(std::size_t begin, std::size_t end, HeaterRun& run) const;
  bool drip_may_follow(const Run& run) const;
  bool rides_on_cooling(const HeaterRun& run) const;
  bool pulls_down(const HeaterRun& run) const;

  const Window& window_;
  const std::vector<double>& load_;
  const double& least_load_;
  const HeaterEdges& edges_;
  double cooling_load_ = 0.0;  ///< that the load stays below for 95 % of the time
  std::vector<double> sum_{0.0};
  std::vector<double> square_{0.0};
};

}  // namespace ohmwright::cycles
