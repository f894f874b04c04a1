#include "fit/few_rows.hpp"

#include <algorithm>

#include "fit/three_rows.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr std::size_t fewest = 3;
double most_missed(std::span<const FitRow> rows, double beta_kelvin) {
  double worst = 0.0;
  for (std::size_t i = 1; i + 1 < rows.size(); ++i)
    worst = std::max(worst, missed_by(rows[i - 1], rows[i], rows[i + 1], beta_kelvin, agreeing_kelvin));
  return worst;
}

/// The outermost row whose error its neighbours would not show.
std::optional<Temperature> unsupported_row(std::span<const FitRow> rows) {
  const std::size_t last = rows.size() - 1;
  if (share_of_cold(rows[0], rows[1], rows[2]) < least_share_of_an_end) return rows[0].temperature;
  if (1.0 - share_of_cold(rows[last - 2], rows[last - 1], rows[last]) < least_share_of_an_end)
    return rows[last].temperature;
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
