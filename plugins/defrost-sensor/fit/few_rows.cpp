#include "fit/few_rows.hpp"

#include <algorithm>

#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr std::size_t fewest = 3;
constexpr std::size_t most = 5;  // of more a search tells which are wrong
constexpr double agreeing_kelvin = 0.6;

/// How much of an error of the cold row lands on the line where the middle one is; of the hot one it is the rest.
double share_of_cold(const FitRow& cold, const FitRow& middle, const FitRow& hot) {
  return (middle.inverse_kelvin() - hot.inverse_kelvin()) / (cold.inverse_kelvin() - hot.inverse_kelvin());
}

/// How far the middle row misses all curves through the outer ones [K].
double missed_by(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin) {
  const double share = share_of_cold(cold, middle, hot);
  const double line = hot.log_resistance() + share * (cold.log_resistance() - hot.log_resistance());
  const double above = line - middle.log_resistance();
  const double bend = error_of_straight_line(middle.temperature, cold.temperature, hot.temperature, beta_kelvin);
  const double least = bend_has_known_sense(hot.temperature) ? 0.0 : -bend;
  const double missed = std::max({least - above, above - bend, 0.0});
  return missed * middle.temperature.kelvin() * middle.temperature.kelvin() / beta_kelvin;
}

double most_missed(std::span<const FitRow> rows, double beta_kelvin) {
  double worst = 0.0;
  for (std::size_t i = 1; i + 1 < rows.size(); ++i)
    worst = std::max(worst, missed_by(rows[i - 1], rows[i], rows[i + 1], beta_kelvin));
  return worst;
}

/// The outermost row whose error its neighbours would not show.
std::optional<std::size_t> unsupported_row(std::span<const FitRow> rows) {
  constexpr double largest_unseen_kelvin = 2.0;
  constexpr double least_share = agreeing_kelvin / largest_unseen_kelvin;
  const std::size_t last = rows.size() - 1;
  if (share_of_cold(rows[0], rows[1], rows[2]) < least_share) return 0;
  if (1.0 - share_of_cold(rows[last - 2], rows[last - 1], rows[last]) < least_share) return last;
  return std::nullopt;
}

}  // namespace

FewRows look_at_few(std::span<const FitRow> rows, double beta_kelvin) {
  FewRows found;
  found.off.assign(rows.size(), false);
  if (rows.size() < fewest || rows.size() > most) return found;
  const double missed = most_missed(rows, beta_kelvin);
  if (missed <= agreeing_kelvin) {
    found.unsupported = unsupported_row(rows);
    return found;
  }
  std::vector<std::size_t> alone_wrong;
  for (std::size_t left_out = 0; rows.size() > fewest && left_out < rows.size(); ++left_out) {
    FitRows others(rows.begin(), rows.end());
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(left_out));
    if (most_missed(others, beta_kelvin) <= agreeing_kelvin) alone_wrong.push_back(left_out);
  }
  if (alone_wrong.size() == 1)
    found.off[alone_wrong.front()] = true;
  else
    found.disagree_kelvin = missed;
  return found;
}

}  // namespace ohmwright::defrost_sensor
