#include "part/alloy.hpp"

#include <algorithm>
#include <array>
#include <iterator>

namespace ohmwright::heater {

namespace {

constexpr std::size_t places = 10;
constexpr std::array<double, places> celsius_of_table{20, 100, 200, 300, 400, 500, 600, 700, 800, 1000};

struct Row {
  std::string_view name;
  Alloy alloy;
  std::array<double, places> factors;
};

constexpr std::array<Row, 5> table{{
    {"nicr-80-20", Alloy::nicr_80_20, {1, 1.006, 1.012, 1.018, 1.025, 1.026, 1.018, 1.010, 1.008, 1.014}},
    {"nicr-60-15", Alloy::nicr_60_15, {1, 1.011, 1.024, 1.038, 1.052, 1.064, 1.069, 1.073, 1.078, 1.095}},
    {"fecral-25-5", Alloy::fecral_25_5, {1, 1.002, 1.005, 1.008, 1.013, 1.021, 1.030, 1.038, 1.040, 1.044}},
    {"nicr-35-20", Alloy::nicr_35_20, {1, 1.029, 1.061, 1.090, 1.115, 1.139, 1.157, 1.173, 1.188, 1.219}},
    {"fecr-13-4", Alloy::fecr_13_4, {1, 1.005, 1.014, 1.028, 1.044, 1.064, 1.090, 1.120, 1.132, 1.150}},
}};

constexpr double hottest_element_celsius = 800.0;
/// What the usual alloys gain at most up to there, with room for what tables differ by.
constexpr double most_of_usual_alloys = 1.08;

/// Interpolated; below 20 °C on with the slope of the first step, above the last place as there.
double factor_of(const Row& row, double celsius) {
  const auto next = std::upper_bound(celsius_of_table.begin() + 1, celsius_of_table.end() - 1, celsius);
  const auto i = static_cast<std::size_t>(std::distance(celsius_of_table.begin(), next));
  const double slope = (row.factors[i] - row.factors[i - 1]) / (celsius_of_table[i] - celsius_of_table[i - 1]);
  const double from = std::min(celsius, celsius_of_table.back());
  return row.factors[i - 1] + slope * (from - celsius_of_table[i - 1]);
}

constexpr bool may_be(Alloy alloy, const Row& row) {
  if (alloy == Alloy::unknown_or_iron) return true;
  if (alloy == Alloy::unknown) return row.alloy <= Alloy::fecral_25_5;
  return row.alloy == alloy;
}

/// The most that any alloy gains which it may be, up to the hottest element: an alloy that is known is never given more
/// room than one of which less is known.
constexpr double most_gain(Alloy alloy) {
  double most = 1.0;
  for (const Row& row : table)
    for (std::size_t i = 0; i < places; ++i)
      if (may_be(alloy, row) && celsius_of_table[i] <= hottest_element_celsius) most = std::max(most, row.factors[i]);
  return most;
}

static_assert(most_gain(Alloy::unknown) <= most_of_usual_alloys);

}  // namespace

Alloy alloy_named(std::string_view name) {
  for (const Row& row : table)
    if (row.name == name) return row.alloy;
  return name == "unknown-or-iron" ? Alloy::unknown_or_iron : Alloy::unknown;
}

Factor resistance_factor(Alloy alloy, Temperature t) {
  Factor span{2.0, 0.0};
  for (const Row& row : table) {
    if (!may_be(alloy, row)) continue;
    span.low = std::min(span.low, factor_of(row, t.celsius()));
    span.high = std::max(span.high, factor_of(row, t.celsius()));
  }
  return span;
}

Factor hot_factor(Alloy alloy, std::optional<Temperature> wire_temperature) {
  if (wire_temperature) return resistance_factor(alloy, *wire_temperature);
  if (alloy == Alloy::unknown) return {1.0, most_of_usual_alloys};
  return {1.0, most_gain(alloy)};
}

}  // namespace ohmwright::heater
