#pragma once

#include <vector>

#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

/// A rise within a temperature: too quick for heat, so warm air came in.
struct QuickRise {
  double start_second = 0.0;
  double end_second = 0.0;
  double rise_kelvin = 0.0;
};

struct QuickRiseSearch {
  std::vector<QuickRise> rises;
  double threshold_kelvin = 0.0;  ///< rise within `within_second`
  double within_second = 0.0;
};

QuickRiseSearch search_quick_rises(const Window& window, const std::vector<double>& kelvin);

}  // namespace ohmwright::cycles
