#include "fit/pattern.hpp"

#include <algorithm>

#include "curves/guards.hpp"
#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// Of more rows than this, evenly chosen ones tell the line as well.
constexpr std::size_t most_paired = 500;
/// Slopes [K] of what rises gently: platinum has −290 K at 0 °C, silicon −600 K.
constexpr double steepest_rise_kelvin = -2000.0;
constexpr double gentlest_rise_kelvin = -20.0;
/// In ln R: farther than this (a third of the ohms, 7 K) from a line, beside its bend, a row is grossly off. The
/// smallest slip looked for, °F taken for °C at −22 °F, is 8 K.
constexpr double grossly_off = 0.35;

struct Slopes {
  std::vector<double> falling;  ///< that a thermistor can have
  std::vector<double> rising;   ///< that platinum can have
  std::size_t all = 0;
};

Slopes slopes_of(std::span<const FitRow> rows) {
  Slopes slopes;
  const std::size_t stride = 1 + rows.size() / most_paired;
  for (std::size_t i = 0; i < rows.size(); i += stride) {
    for (std::size_t j = i + stride; j < rows.size(); j += stride) {
      if (same_temperature(rows[i], rows[j])) continue;
      const double beta =
          (rows[i].log_resistance() - rows[j].log_resistance()) / (rows[i].inverse_kelvin() - rows[j].inverse_kelvin());
      ++slopes.all;
      if (beta >= smallest_beta_kelvin && beta <= largest_beta_kelvin) slopes.falling.push_back(beta);
      if (beta > steepest_rise_kelvin && beta < gentlest_rise_kelvin) slopes.rising.push_back(beta);
    }
  }
  return slopes;
}

/// The lower one of two middle values: always a value that is there.
double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

ThermistorLine line_of(std::span<const FitRow> rows, double beta_kelvin) {
  std::vector<double> heights;
  for (const FitRow& row : rows) heights.push_back(row.log_resistance() - beta_kelvin * row.inverse_kelvin());
  return {beta_kelvin, median(std::move(heights))};
}

/// Rows that lie no farther from the line than its bend and `grossly_off` allow. The line is taken as exact a quarter
/// of the rows in from either end.
std::vector<bool> rows_on(const ThermistorLine& line, std::span<const FitRow> rows) {
  std::vector<Temperature> sorted;
  for (const FitRow& row : rows) sorted.push_back(row.temperature);
  std::sort(sorted.begin(), sorted.end());
  const std::size_t quarter = sorted.size() / 4;
  Temperature cold = sorted[quarter];
  Temperature hot = sorted[sorted.size() - 1 - quarter];
  if (!(cold < hot)) {
    cold = sorted.front();
    hot = sorted.back();
  }
  std::vector<bool> on;
  for (const FitRow& row : rows) {
    const double bend = std::abs(error_of_straight_line(row.temperature, cold, hot, line.beta_kelvin));
    on.push_back(std::abs(row.log_resistance() - line.log_resistance(row.temperature)) <= grossly_off + bend);
  }
  return on;
}

}  // namespace

Pattern pattern_of(std::span<const FitRow> rows) {
  Pattern pattern;
  const Slopes slopes = slopes_of(rows);
  if (slopes.rising.size() > slopes.falling.size() && 2 * slopes.rising.size() > slopes.all) {
    pattern.sense = Pattern::Sense::rising;
    const double kelvin = rows[rows.size() / 2].temperature.kelvin();
    pattern.rise_per_kelvin = -median(slopes.rising) / (kelvin * kelvin);
    return pattern;
  }
  if (slopes.falling.empty()) return pattern;
  pattern.line = line_of(rows, median(slopes.falling));
  pattern.on_the_line = rows_on(pattern.line, rows);
  const auto count = std::count(pattern.on_the_line.begin(), pattern.on_the_line.end(), true);
  if (2 * static_cast<std::size_t>(count) > rows.size()) pattern.sense = Pattern::Sense::thermistor;
  return pattern;
}

}  // namespace ohmwright::defrost_sensor
