#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include <ohmwright/cycles/guessed_units.hpp>
#include <ohmwright/cycles/known_figures.hpp>

namespace ohmwright::cycles {

namespace {

/// What a column of degF that is read as degC shows at the melting point [K].
constexpr double number_of_melting_fahrenheit = melting_point_kelvin + 32.0;

/// Whether the reader says of that quantity, by that finding, that it is in degC.
bool is_celsius_by(std::string_view finding, const std::vector<LogFinding>& reading, LogQuantity quantity) {
  return std::any_of(reading.begin(), reading.end(), [&](const LogFinding& one) {
    return one.id == finding && one.text("quantity") == name_of(quantity) && one.text("unit") == "degC";
  });
}

/// Whether the coil stays at that temperature for far longer than a steady rise takes through it.
bool rests_at(double kelvin, const Defrost& defrost, const DefrostTrace& trace) {
  constexpr double half_band_kelvin = 1.8;  // 1 K to each side, in degF
  constexpr double times_the_passage = 3.0;
  double inside_second = 0.0;
  double least = 1e9;
  double most = 0.0;
  for (const PlotPoint& point : trace.points) {
    const auto coil = static_cast<double>(point.value[index_of(LogQuantity::coil_temperature)]);
    if (std::isnan(coil) || point.second < defrost.start_second || point.second >= defrost.end_second) continue;
    least = std::min(least, coil);
    most = std::max(most, coil);
    if (std::abs(coil - kelvin) <= half_band_kelvin) inside_second += point.width_second;
  }
  const double rise = most - least;
  if (rise <= 4.0 * half_band_kelvin) return false;
  const double passage = (defrost.end_second - defrost.start_second) * 2.0 * half_band_kelvin / rise;
  return inside_second > times_the_passage * passage;
}

/// The defrosts of which the coil's course is kept, and where it rested in them.
struct Rests {
  double all = 0.0;
  double at_melting = 0.0;
  double at_fahrenheit = 0.0;
  double peak_kelvin = 0.0;
};

Rests rests_of(const LogAnalysis& analysis) {
  Rests rests;
  for (const DefrostTrace& trace : analysis.traces) {
    const Defrost& defrost = analysis.defrosts[trace.defrost];
    if (defrost.is_cut || !defrost.has_coil || !defrost.rise_is_seen) continue;
    ++rests.all;
    if (defrost.plateau_second > 0.0)
      ++rests.at_melting;
    else if (rests_at(number_of_melting_fahrenheit, defrost, trace))
      ++rests.at_fahrenheit;
    rests.peak_kelvin = std::max(rests.peak_kelvin, defrost.lasting_peak_kelvin.value_or(0.0));
  }
  return rests;
}

}  // namespace

void doubt_guessed_units(const std::vector<LogFinding>& reading, LogAnalysis& analysis) {
  const bool is_guessed = is_celsius_by("unit-guessed", reading, LogQuantity::coil_temperature);
  const std::string_view source = is_guessed ? "unit-guessed" : "unit-written";
  if (!is_celsius_by(source, reading, LogQuantity::coil_temperature) || analysis.lasting_heat) return;
  const Rests rests = rests_of(analysis);
  if (rests.all < 1.0 || rests.at_melting > 0.0) return;
  LogFinding finding;
  if (2.0 * rests.at_fahrenheit >= rests.all)
    finding = {is_guessed ? "unit-guess-contradicted" : "unit-in-header-contradicted",
               {{"count", rests.at_fahrenheit}, {"all", rests.all}},
               true};
  else if (is_guessed && rests.peak_kelvin > hottest_good_end_kelvin)
    finding = {"unit-guess-unproved", {{"celsius", std::round(rests.peak_kelvin - melting_point_kelvin)}}, true};
  else
    return;
  analysis.findings.push_back(std::move(finding));
  analysis.unit_in_doubt[index_of(LogQuantity::coil_temperature)] = true;
  // What one logger wrote beside it is in the same.
  if (is_celsius_by(source, reading, LogQuantity::cabinet_temperature))
    analysis.unit_in_doubt[index_of(LogQuantity::cabinet_temperature)] = true;
}

}  // namespace ohmwright::cycles
