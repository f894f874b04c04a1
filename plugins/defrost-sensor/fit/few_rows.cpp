#include "fit/few_rows.hpp"

#include <algorithm>

#include "curves/slope_change.hpp"
#include "fit/doubts.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr std::size_t fewest = 3;
constexpr double agreeing_kelvin = 0.6;

/// How much of an error of the cold row lands on the line where the middle one is; of the hot one it is the rest.
double share_of_cold(const FitRow& cold, const FitRow& middle, const FitRow& hot) {
  return (middle.inverse_kelvin() - hot.inverse_kelvin()) / (cold.inverse_kelvin() - hot.inverse_kelvin());
}

/// What the half-widths stated with the three rows may move the middle one by [K].
double stated_kelvin(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin) {
  const double share = share_of_cold(cold, middle, hot);
  return stated_half_width(middle, beta_kelvin) + share * stated_half_width(cold, beta_kelvin) +
         (1.0 - share) * stated_half_width(hot, beta_kelvin);
}

/// How far the middle row misses all curves through the outer ones [K]; 0 where no farther than may be.
double missed_by(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin) {
  const double share = share_of_cold(cold, middle, hot);
  const double line = hot.log_resistance() + share * (cold.log_resistance() - hot.log_resistance());
  const double above = line - middle.log_resistance();
  const double bend = error_of_straight_line(middle.temperature, cold.temperature, hot.temperature, beta_kelvin);
  const double least = bend_has_known_sense(hot.temperature) ? 0.0 : -bend;
  const double missed = std::max({least - above, above - bend, 0.0});
  const double missed_kelvin = missed * middle.temperature.kelvin() * middle.temperature.kelvin() / beta_kelvin;
  const double allowed = std::max(agreeing_kelvin, stated_kelvin(cold, middle, hot, beta_kelvin));
  return missed_kelvin > allowed ? missed_kelvin : 0.0;
}

double most_missed(std::span<const FitRow> rows, double beta_kelvin) {
  double worst = 0.0;
  for (std::size_t i = 1; i + 1 < rows.size(); ++i)
    worst = std::max(worst, missed_by(rows[i - 1], rows[i], rows[i + 1], beta_kelvin));
  return worst;
}

/// The outermost row whose error its neighbours would not show.
std::optional<Temperature> unsupported_row(std::span<const FitRow> rows) {
  constexpr double largest_unseen_kelvin = 2.0;
  constexpr double least_share = agreeing_kelvin / largest_unseen_kelvin;
  const std::size_t last = rows.size() - 1;
  if (share_of_cold(rows[0], rows[1], rows[2]) < least_share) return rows[0].temperature;
  if (1.0 - share_of_cold(rows[last - 2], rows[last - 1], rows[last]) < least_share) return rows[last].temperature;
  return std::nullopt;
}

}  // namespace

FewRows look_at_few(std::span<const FitRow> rows, double beta_kelvin) {
  FewRows found;
  found.off.assign(rows.size(), false);
  if (rows.size() < fewest || rows.size() > most_few_rows) return found;
  const double missed = most_missed(rows, beta_kelvin);
  if (missed == 0.0) {
    found.unsupported = unsupported_row(rows);
    return found;
  }
  std::size_t alone_wrong = 0;
  for (std::size_t left_out = 0; rows.size() > fewest && left_out < rows.size(); ++left_out) {
    FitRows others(rows.begin(), rows.end());
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
    if (most_missed(others, beta_kelvin) > 0.0) continue;
    ++alone_wrong;
    found.off[left_out] = true;
    found.unsupported = unsupported_row(others);
  }
  if (alone_wrong == 1) return found;
  found.off.assign(rows.size(), false);
  found.unsupported.reset();
  found.disagree_kelvin = missed;
  return found;
}

}  // namespace ohmwright::defrost_sensor
