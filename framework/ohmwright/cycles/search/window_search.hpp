#pragma once

#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/search/compressor_search.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

/// What one window holds; causes of endings and intervals are told over the whole log.
struct WindowEvents {
  std::vector<Defrost> defrosts;  ///< by time
  CompressorSearch compressor;
  std::vector<DoorOpening> doors;
  std::vector<LogThreshold> thresholds;
  double one_level_second = 0.0;     ///< as in `HeaterSearch`
  std::size_t short_stand_outs = 0;  ///< as in `HeaterSearch`
  std::size_t weak_heatings = 0;   ///< as of a defrost by their shape, of less than any heater draws: not told as such
  double weak_heating_load = 0.0;  ///< the highest of them [W, A]
  std::size_t too_frequent = 0;    ///< as in `HeaterSearch`
  bool heats_at_only_level = false;  ///< as in `HeaterSearch`
};

WindowEvents search_window(const Window& window, const LogRatings& ratings);

}  // namespace ohmwright::cycles
