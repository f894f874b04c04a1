#include <algorithm>

#include <ohmwright/cycles/search/run_scores.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

double duration_score(double second) {
  const double minutes = second / 60.0;
  if (minutes < 2.5) return -1.2;
  if (minutes < 5.0) return -0.8;
  if (minutes < 7.0) return 0.1;
  if (minutes <= 45.0) return 0.5;
  if (minutes <= 65.0) return 0.2;
  return minutes <= 100.0 ? -0.6 : -2.0;
}

double spacing_score(std::optional<double> second) {
  if (!second) return 0.1;
  const double hours = *second / 3600.0;
  if (hours >= 5.0) return 0.4;
  if (hours >= 3.5) return 0.0;
  return hours >= 2.0 ? -0.6 : -1.5;
}

std::optional<double> nearest(const std::vector<double>& starts, std::size_t i) {
  std::optional<double> least;
  if (i > 0) least = starts[i] - starts[i - 1];
  if (i + 1 < starts.size()) least = std::min(least.value_or(1e300), starts[i + 1] - starts[i]);
  return least;
}

bool come_too_often(const std::vector<double>& starts) {
  constexpr double least_usual_second = 3.0 * 3600.0;
  std::vector<double> apart;
  for (std::size_t i = 1; i < starts.size(); ++i) apart.push_back(starts[i] - starts[i - 1]);
  return apart.size() >= 2 && median_of(std::move(apart)) < least_usual_second;
}

}  // namespace ohmwright::cycles
