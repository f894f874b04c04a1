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
/// Rows of one column are hardly further apart than this, whatever the others do (common practice, no source).
constexpr double longest_usual_step_second = 720.0;

/// The value below which a share of the values lies; 0 of none.
double quantile_of(std::vector<double> values, double share) {
  if (values.empty()) return 0.0;
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// One column out of samples that may lack it.
class Column {
 public:
  Column(std::span<const LogSample> samples, LogQuantity quantity) : samples_(samples), index_(index_of(quantity)) {
    std::vector<double> steps;
    double before = LogRow::none;
    const std::size_t stride = 1 + samples.size() / looked_at;
    std::size_t found = 0;
    for (const LogSample& sample : samples) {
      if (std::isnan(sample.mean[index_])) continue;
      if (found++ % stride == 0 && !std::isnan(before)) steps.push_back(sample.first_second - before);
      before = sample.first_second;
    }
    is_empty_ = found == 0;
    // A logger that writes a value when it changes leaves longer pauses now and then.
    const double usual = median_of(steps);
    const double longest_usual = std::min(quantile_of(std::move(steps), 0.95), longest_usual_step_second);
    carried_second_ = std::max(shortest_gap_second, gap_in_spacings * std::max(usual, longest_usual));
  }

  bool is_empty() const { return is_empty_; }

  /// The column's values; what is missing is carried on from the one before it, and to the first from the one behind
  /// it, for as long as rows of this column may be apart.
  std::vector<double> filled(bool typical) const {
    std::vector<double> values;
    if (is_empty_) return values;
    values.reserve(samples_.size());
    double last = LogRow::none;
    double last_second = 0.0;
    for (const LogSample& sample : samples_) {
      const auto value = static_cast<double>(typical ? sample.typical[index_] : sample.mean[index_]);
      if (!std::isnan(value)) {
        last = value;
        last_second = sample.last_second;
      }
      values.push_back(sample.first_second - last_second <= carried_second_ ? last : LogRow::none);
    }
    fill_before_first(values);
    return values;
  }

 private:
  void fill_before_first(std::vector<double>& values) const {
    const auto first = std::find_if(values.begin(), values.end(), [](double value) { return !std::isnan(value); });
    const auto count = static_cast<std::size_t>(first - values.begin());
    for (std::size_t i = 0; i < count; ++i)
      if (samples_[count].first_second - samples_[i].first_second <= carried_second_) values[i] = *first;
  }

  std::span<const LogSample> samples_;
  std::size_t index_;
  bool is_empty_ = true;
  double carried_second_ = 0.0;
};

}  // namespace

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
  window.coil = Column(samples, LogQuantity::coil_temperature).filled(false);
  if (!window.coil.empty())
    for (std::size_t i = 0; i < samples.size(); ++i)
      window.coil_warmest.push_back(std::max(samples[i].warmest_coil, static_cast<float>(window.coil[i])));
  window.cabinet = Column(samples, LogQuantity::cabinet_temperature).filled(false);
  const Column power(samples, LogQuantity::power);
  const Column current(samples, LogQuantity::current);
  const Column& load = power.is_empty() ? current : power;
  window.load = load.filled(true);
  window.load_mean = load.filled(false);
  if (power.is_empty()) {
    window.load_is_current = !window.load.empty() && !ratings.line_volt;
    if (ratings.line_volt)
      for (std::vector<double>* values : {&window.load, &window.load_mean})
        for (double& value : *values) value *= *ratings.line_volt;
  }
  for (double& value : window.load)
    if (value < 0.0) value = 0.0;  // not-a-number stays what it is
  window.coil_noise = noise_of(window.coil);
  window.cabinet_noise = noise_of(window.cabinet);
  return window;
}

const Window& where_logged(const Window& window, const std::vector<double> Window::*quantity, Window& room) {
  const std::vector<double>& values = window.*quantity;
  const auto is_missing = [](double value) { return std::isnan(value); };
  if (std::none_of(values.begin(), values.end(), is_missing)) return window;
  room = Window{};
  room.spacing_second = window.spacing_second;
  room.gap_limit_second = window.gap_limit_second;
  room.load_is_current = window.load_is_current;
  room.coil_noise = window.coil_noise;
  room.cabinet_noise = window.cabinet_noise;
  for (std::size_t i = 0; i < window.size(); ++i) {
    if (is_missing(values[i])) {
      if (!room.gap_after.empty()) room.gap_after.back() = 1;
      continue;
    }
    room.start.push_back(window.start[i]);
    room.width.push_back(window.width[i]);
    room.gap_after.push_back(window.gap_after[i]);
    for (const auto member : {&Window::load, &Window::load_mean, &Window::coil, &Window::cabinet})
      if (!(window.*member).empty()) (room.*member).push_back((window.*member)[i]);
    if (!window.coil_warmest.empty()) room.coil_warmest.push_back(window.coil_warmest[i]);
  }
  return room;
}

double logged_share(const Window& window, double from_second, double to_second) {
  const auto behind = std::upper_bound(window.start.begin(), window.start.end(), from_second);
  const auto first = static_cast<std::size_t>(behind - window.start.begin());
  double logged = 0.0;
  for (std::size_t i = first > 0 ? first - 1 : 0; i < window.size() && window.start[i] < to_second; ++i)
    logged += std::max(0.0, std::min(window.end_of(i), to_second) - std::max(window.start[i], from_second));
  return to_second > from_second ? std::min(1.0, logged / (to_second - from_second)) : 0.0;
}

double time_quantile(std::span<const double> values, std::span<const double> widths, double share) {
  // A histogram of fine bins: sorting a window costs more than all the rest of the search.
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  const double low = *least;
  const double range = *most - low;
  if (range <= 0.0) return low;
  constexpr std::size_t fine_bins = 4096;
  std::vector<double> time(fine_bins + 1);
  double whole = 0.0;
  const double bins_per_unit = fine_bins / range;
  for (std::size_t i = 0; i < values.size(); ++i) {
    time[std::min(fine_bins, static_cast<std::size_t>((values[i] - low) * bins_per_unit))] += widths[i];
    whole += widths[i];
  }
  double below = 0.0;
  for (std::size_t bin = 0; bin <= fine_bins; ++bin) {
    below += time[bin];
    if (below >= share * whole) return low + (static_cast<double>(bin) + 0.5) / fine_bins * range;
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
    if (const double step = std::abs(values[i] - 2.0 * values[i - 1] + values[i - 2]); !std::isnan(step))
      steps.push_back(step);
  return median_of(std::move(steps)) / (0.6745 * std::sqrt(6.0));  // of a normal error's second differences
}

}  // namespace ohmwright::cycles
