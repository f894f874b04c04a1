#include "fit/end_rows.hpp"

#include <algorithm>

#include "fit/few_rows.hpp"
#include "fit/three_rows.hpp"
#include "fit/working_model.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// What the scatter of the rows but the first may make of the miss of three [K].
double allowed_by_scatter(std::span<const FitRow> from_the_end, const ThermistorLine& line) {
  constexpr double deviations = 3.0;
  constexpr double of_three_rows = 1.25;  // √(1 + s² + (1 − s)²), s from 0.3 to 0.7
  const double scatter = WorkingModel(from_the_end.subspan(1), line).scatter();
  return std::max(agreeing_kelvin, deviations * of_three_rows * scatter);
}

/// Looks at the first of the rows, sorted from that end.
void look_at_end(std::span<const FitRow> rows, const ThermistorLine& line, EndRows& found) {
  const bool is_cold = rows[0].temperature < rows[1].temperature;
  for (std::size_t partner = 2; partner < rows.size(); ++partner) {
    const FitRow& cold = is_cold ? rows[0] : rows[partner];
    const FitRow& hot = is_cold ? rows[partner] : rows[0];
    const double of_cold = share_of_cold(cold, rows[1], hot);
    if ((is_cold ? of_cold : 1.0 - of_cold) < least_share_of_an_end) continue;
    const double missed = missed_by(cold, rows[1], hot, line.beta_kelvin, allowed_by_scatter(rows, line));
    found.disagree_kelvin = std::max(found.disagree_kelvin, missed);
    return;
  }
  if (!found.unsupported) found.unsupported = rows[0].temperature;
}

}  // namespace

EndRows look_at_ends(std::span<const FitRow> rows, const ThermistorLine& line) {
  EndRows found;
  if (rows.size() <= most_few_rows) return found;
  look_at_end(rows, line, found);
  const FitRows from_hot(rows.rbegin(), rows.rend());
  look_at_end(from_hot, line, found);
  return found;
}

}  // namespace ohmwright::defrost_sensor
