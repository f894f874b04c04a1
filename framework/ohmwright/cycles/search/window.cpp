#include <algorithm>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

namespace {

/// A gap is more than two rows missing, and more than a minute.
constexpr double gap_in_spacings = 2.5;
constexpr double shortest_gap_second = 60.0;
/// Of this many values a median is as good as of all.
constexpr std::size_t looked_at = 8192;

std::vector<double> filled(std::span<const LogSample> samples, LogQuantity quantity, bool typical) {
  std::vector<double> values;
  const std::size_t index = index_of(quantity);
  const auto of = [&](const LogSample& sample) {
    return static_cast<double>(typical ? sample.typical[index] : sample.mean[index]);
  };
  const auto first =
      std::find_if(samples.begin(), samples.end(), [&](const LogSample& s) { return !std::isnan(of(s)); });
  if (first == samples.end()) return values;
  values.reserve(samples.size());
  double last = of(*first);
  for (const LogSample& sample : samples) {
    const double value = of(sample);
    if (!std::isnan(value)) last = value;
    values.push_back(last);
  }
  return values;
}

}  // namespace

double median_of(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

Window window_of(std::span<const LogSample> samples, const LogRatings& ratings) {
  Window window;
  std::vector<double> steps;
  const std::size_t stride = 1 + samples.size() / looked_at;
  for (std::size_t i = 0; i < samples.size(); ++i) {
    window.start.push_back(samples[i].first_second);
    if (i > 0 && i % stride == 0) steps.push_back(samples[i].first_second - samples[i - 1].first_second);
  }
  window.spacing_second = steps.empty() ? LogSampler::slot_second : std::max(1.0, median_of(std::move(steps)));
  window.gap_limit_second = std::max(shortest_gap_second, gap_in_spacings * window.spacing_second);
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const bool is_last = i + 1 == samples.size();
    const double next = is_last ? samples[i].first_second + window.spacing_second : samples[i + 1].first_second;
    const bool gap = !is_last && next - samples[i].last_second > window.gap_limit_second;
    window.gap_after.push_back(gap ? 1 : 0);
    window.width.push_back(gap ? samples[i].last_second - samples[i].first_second +
                                     window.spacing_second / std::max(1.0, static_cast<double>(samples[i].rows))
                               : next - samples[i].first_second);
  }
  window.coil = filled(samples, LogQuantity::coil_temperature, false);
  if (!window.coil.empty())
    for (std::size_t i = 0; i < samples.size(); ++i)
      window.coil_warmest.push_back(std::max(samples[i].warmest_coil, static_cast<float>(window.coil[i])));
  window.cabinet = filled(samples, LogQuantity::cabinet_temperature, false);
  window.load = filled(samples, LogQuantity::power, true);
  window.load_mean = filled(samples, LogQuantity::power, false);
  if (window.load.empty()) {
    window.load = filled(samples, LogQuantity::current, true);
    window.load_mean = filled(samples, LogQuantity::current, false);
    window.load_is_current = !window.load.empty() && !ratings.line_volt;
    if (ratings.line_volt)
      for (std::vector<double>* values : {&window.load, &window.load_mean})
        for (double& value : *values) value *= *ratings.line_volt;
  }
  for (double& value : window.load) value = std::max(value, 0.0);
  window.coil_noise = noise_of(window.coil);
  window.cabinet_noise = noise_of(window.cabinet);
  return window;
}

double time_quantile(std::span<const double> values, std::span<const double> widths, double share) {
  // A histogram of fine bins: sorting a window costs more than all the rest of the search.
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  const double low = *least;
  const double range = *most - low;
  if (range <= 0.0) return low;
  constexpr std::size_t bins = 4096;
  std::vector<double> time(bins + 1);
  double whole = 0.0;
  const double bins_per_unit = bins / range;
  for (std::size_t i = 0; i < values.size(); ++i) {
    time[std::min(bins, static_cast<std::size_t>((values[i] - low) * bins_per_unit))] += widths[i];
    whole += widths[i];
  }
  double below = 0.0;
  for (std::size_t bin = 0; bin <= bins; ++bin) {
    below += time[bin];
    if (below >= share * whole) return low + (static_cast<double>(bin) + 0.5) / bins * range;
  }
  return low + range;
}

std::vector<double> smoothed(const Window& window, const std::vector<double>& values, double second) {
  const auto reach = static_cast<std::ptrdiff_t>(second / window.spacing_second / 2.0);
  if (reach < 1) return values;
  const auto count = static_cast<std::ptrdiff_t>(values.size());
  std::vector<double> result(values.size());
  std::ptrdiff_t block = 0;
  for (std::ptrdiff_t i = 0; i < count; ++i) {
    const bool ends = i + 1 == count || window.gap_after[static_cast<std::size_t>(i)] != 0;
    if (!ends) continue;
    std::ptrdiff_t from = block;
    std::ptrdiff_t to = block;
    double sum = 0.0;
    for (std::ptrdiff_t at = block; at <= i; ++at) {
      while (to <= i && to <= at + reach) sum += values[static_cast<std::size_t>(to++)];
      while (from < at - reach) sum -= values[static_cast<std::size_t>(from++)];
      result[static_cast<std::size_t>(at)] = sum / static_cast<double>(to - from);
    }
    block = i + 1;
  }
  return result;
}

double noise_of(const std::vector<double>& values) {
  std::vector<double> steps;
  const std::size_t stride = 1 + values.size() / looked_at;
  for (std::size_t i = 2; i < values.size(); i += stride)
    steps.push_back(std::abs(values[i] - 2.0 * values[i - 1] + values[i - 2]));
  return median_of(std::move(steps)) / (0.6745 * std::sqrt(6.0));  // of a normal error's second differences
}

}  // namespace ohmwright::cycles
