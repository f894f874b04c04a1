#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/search/held_values.hpp>
#include <ohmwright/cycles/search/sampler.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t looked_at_rows = 4096;
constexpr std::size_t fewest_held_rows = 24;
/// No compressor rests for longer (common practice, no source), so no value holds for longer.
constexpr double longest_hold_second = 6.0 * 3600.0;

/// A value with the time to the next row of it.
struct HeldValue {
  double value = 0.0;
  double second = 0.0;
};

/// The one quantity that the rows hold; nothing where they hold none or several.
std::optional<LogQuantity> only_quantity(std::span<const LogRow> rows) {
  std::optional<LogQuantity> only;
  for (const LogQuantity quantity : log_quantities) {
    const bool is_held = std::any_of(
        rows.begin(), rows.end(), [quantity](const LogRow& row) { return !std::isnan(row.value[index_of(quantity)]); });
    if (is_held && only) return std::nullopt;
    if (is_held) only = quantity;
  }
  return only;
}

std::vector<HeldValue> held_values_of(std::span<const LogRow> rows, LogQuantity quantity) {
  std::vector<HeldValue> values;
  double begun_second = 0.0;
  for (const LogRow& row : rows) {
    const double value = row.value[index_of(quantity)];
    if (std::isnan(value)) continue;
    if (!values.empty()) values.back().second = row.time_second - begun_second;
    values.push_back({value, 0.0});
    begun_second = row.time_second;
  }
  return values;
}

double value_below(std::vector<double> values, double share) {
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// How long a load holds at most, where the log is one of changes.
std::optional<double> longest_hold_of_load(std::span<const HeldValue> values) {
  std::vector<double> loads;
  std::vector<double> seconds;
  for (const HeldValue& one : values) {
    loads.push_back(one.value);
    seconds.push_back(one.second);
  }
  const double low = value_below(loads, 0.02);
  const double high = value_below(loads, 0.98);
  const double usual = median_of(seconds);
  std::vector<double> resting;
  std::size_t equal = 0;
  std::size_t alike = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (values[i].value <= low + 0.1 * (high - low)) resting.push_back(values[i].second);
    if (i == 0) continue;
    const double change = std::abs(values[i].value - values[i - 1].value);
    // The same value again is written by a meter that has nothing to say for long, and by all others at any time.
    if (change == 0.0 && values[i - 1].second < 5.0 * usual) ++equal;
    if (change < 0.02 * (high - low)) ++alike;
  }
  const auto few = [&](std::size_t count) { return count * 33 < values.size(); };
  constexpr std::size_t fewest_rests = 6;
  const double rest = resting.size() < fewest_rests ? 0.0 : median_of(resting);
  const bool has_no_interval = value_below(seconds, 0.9) > 4.0 * std::max(1.0, value_below(seconds, 0.1));
  const bool rests_unwritten = rest >= 2.5 * usual && rest > 120.0;
  const bool writes_levels = few(alike);  // each row another level
  if (!few(equal) || !has_no_interval || !(rests_unwritten || writes_levels)) return std::nullopt;
  const double long_rest = value_below(rests_unwritten ? std::move(resting) : std::move(seconds), 0.9);
  return std::min(longest_hold_second, 4.0 * long_rest);
}

/// How long a temperature holds at most, where the log is one of changes: however long it was silent, it has changed by
/// about a step of the logger.
std::optional<double> longest_hold_of_temperature(std::span<const HeldValue> values) {
  std::vector<double> seconds;
  std::vector<double> changes;
  for (std::size_t i = 1; i < values.size(); ++i) {
    seconds.push_back(values[i - 1].second);
    changes.push_back(std::abs(values[i].value - values[i - 1].value));
  }
  const double step = value_below(changes, 0.1);
  const double usual = median_of(seconds);
  std::vector<double> silent;
  std::size_t by_a_step = 0;
  for (std::size_t i = 0; i < seconds.size(); ++i) {
    if (seconds[i] < std::max(120.0, 3.0 * usual)) continue;
    silent.push_back(seconds[i]);
    if (changes[i] < 2.2 * step) ++by_a_step;
  }
  constexpr std::size_t fewest_silences = 8;
  if (step <= 0.0 || silent.size() < fewest_silences || by_a_step * 10 < silent.size() * 9) return std::nullopt;
  return std::min(longest_hold_second, 4.0 * value_below(std::move(silent), 0.9));
}

std::optional<double> longest_hold(std::span<const LogRow> rows) {
  const std::optional<LogQuantity> quantity = only_quantity(rows);
  if (!quantity) return std::nullopt;
  const std::vector<HeldValue> values = held_values_of(rows, *quantity);
  if (values.size() < fewest_held_rows) return std::nullopt;
  // How long the last one holds is not known.
  return measured_dimension(*quantity) == Dimension::temperature
             ? longest_hold_of_temperature(values)
             : longest_hold_of_load(std::span(values).first(values.size() - 1));
}

}  // namespace

void HeldValues::take(std::span<const LogRow> rows, Give give) {
  if (is_told_) return longest_second_ ? fill(rows, give) : give(rows);
  waiting_.insert(waiting_.end(), rows.begin(), rows.end());
  if (waiting_.size() >= looked_at_rows) finish(give);
}

void HeldValues::finish(Give give) {
  if (is_told_) return;
  is_told_ = true;
  longest_second_ = longest_hold(waiting_);
  const std::vector<LogRow> rows = std::move(waiting_);
  waiting_.clear();
  if (longest_second_)
    fill(rows, give);
  else if (!rows.empty())
    give(rows);
}

void HeldValues::fill(std::span<const LogRow> rows, Give give) {
  constexpr double step_second = LogSampler::slot_second;
  std::vector<LogRow> filled;
  for (const LogRow& row : rows) {
    const double passed = last_ ? row.time_second - last_->time_second : 0.0;
    if (passed > 2.0 * step_second && passed <= *longest_second_) {
      const double begun_second = last_->time_second;
      for (double ahead = step_second; ahead < passed - 1.0; ahead += step_second) {
        last_->time_second = begun_second + ahead;
        filled.push_back(*last_);
      }
    }
    filled.push_back(row);
    last_ = row;
    if (filled.size() < looked_at_rows) continue;
    give(filled);
    filled.clear();
  }
  if (!filled.empty()) give(filled);
}

}  // namespace ohmwright::cycles
