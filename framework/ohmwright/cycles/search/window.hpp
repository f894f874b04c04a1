#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/search/sampler.hpp>

namespace ohmwright::cycles {

/// A stretch of a log, made ready for the search: one entry a sample. A value that is missing for a moment is the one
/// before it; one that is missing for longer than its column's rows are usually apart is not-a-number.
struct Window {
  std::vector<double> start;        ///< [s]
  std::vector<double> width;        ///< time that the sample stands for [s]
  std::vector<char> gap_after;      ///< the log has a gap behind it
  std::vector<double> load;         ///< power [W] or current [A], inrush taken off; empty: none
  std::vector<double> load_mean;    ///< the same with the inrush, for energies
  std::vector<double> coil;         ///< [K]; empty: none
  std::vector<float> coil_warmest;  ///< the greatest of each sample's rows
  std::vector<double> cabinet;
  double spacing_second = 0.0;  ///< usual interval of samples
  double gap_limit_second = 0.0;
  bool load_is_current = false;
  double coil_noise = 0.0;  ///< standard deviation [K], by `noise_of`
  double cabinet_noise = 0.0;

  std::size_t size() const { return start.size(); }
  double end_of(std::size_t i) const { return start[i] + width[i]; }
};

Window window_of(std::span<const LogSample> samples, const LogRatings& ratings);

/// The samples of a window that hold `quantity`, without those that do not: a hole in a column is a gap of that column.
/// Gives the window itself where the column has no hole; else fills `room`, which must outlive the result.
const Window& where_logged(const Window& window, const std::vector<double> Window::*quantity, Window& room);

/// Share of the time between two seconds in which the window has samples, 0…1.
double logged_share(const Window& window, double from_second, double to_second);

/// Value below which the share of the time lies, of values with their widths; `values` is not empty.
double time_quantile(std::span<const double> values, std::span<const double> widths, double share);

/// Mean over about `second` seconds around each sample, not across gaps.
std::vector<double> smoothed(const Window& window, const std::vector<double>& values, double second);

/// Standard deviation of what changes from sample to sample, by the median of second differences, of which some
/// thousand are looked at; those with a missing value are not.
double noise_of(const std::vector<double>& values);

}  // namespace ohmwright::cycles
