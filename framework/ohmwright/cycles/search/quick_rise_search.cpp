#include <algorithm>

#include <ohmwright/cycles/search/quick_rise_search.hpp>

namespace ohmwright::cycles {

QuickRiseSearch search_quick_rises(const Window& window, const std::vector<double>& kelvin) {
  QuickRiseSearch search;
  search.within_second = std::max(180.0, 1.5 * window.spacing_second);
  const double noise = noise_of(kelvin);
  // Rises within that time, as the cycles make them.
  std::vector<double> rises(kelvin.size(), 0.0);
  std::vector<double> upward;
  std::size_t from = 0;
  for (std::size_t i = 0; i < kelvin.size(); ++i) {
    if (i > 0 && window.gap_after[i - 1] != 0) from = i;
    while (window.start[i] - window.start[from] > search.within_second) ++from;
    rises[i] = kelvin[i] - kelvin[from];
    if (rises[i] > 0.0) upward.push_back(rises[i]);
  }
  if (upward.empty()) return search;
  // The usual rise is that of a standing compressor.
  search.threshold_kelvin = std::max({4.0 * median_of(std::move(upward)), 8.0 * noise, 0.5});
  for (std::size_t i = 0; i < kelvin.size(); ++i) {
    if (rises[i] < search.threshold_kelvin) continue;
    QuickRise rise{window.start[i], window.start[i], rises[i]};
    double low = kelvin[i] - rises[i];
    double top = kelvin[i];
    std::size_t k = i;
    while (k > 0 && window.start[i] - window.start[k] < search.within_second && kelvin[k] > low + 0.1 * rises[i] &&
           window.gap_after[k - 1] == 0)
      --k;
    rise.start_second = window.start[k];
    // On to its top and until half of it is gone: one opening.
    std::size_t at = i;
    double quick = rises[i];
    while (at + 1 < kelvin.size() && window.gap_after[at] == 0 && kelvin[at + 1] > low + 0.5 * (top - low)) {
      ++at;
      if (window.start[at] - rise.start_second < 2.0 * search.within_second) quick = std::max(quick, rises[at]);
      if (kelvin[at] > top) {
        top = kelvin[at];
        rise.end_second = window.start[at];
      }
      if (window.start[at] - rise.start_second > 3600.0) break;
    }
    rise.rise_kelvin = top - low;
    // What goes on rising is slow heat that began quickly, as after the heater's start.
    if (quick > 0.6 * rise.rise_kelvin) search.rises.push_back(rise);
    i = at;
  }
  return search;
}

}  // namespace ohmwright::cycles
