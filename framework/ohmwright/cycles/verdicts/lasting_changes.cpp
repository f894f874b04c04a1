#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/lasting_changes.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double day_second = 24.0 * 3600.0;

/// Whether the compressor stood between two seconds for a defrost, its dripping with it.
bool stood_for_defrost(const LogAnalysis& analysis, double from_second, double to_second) {
  constexpr double around_second = 1800.0;  // drip times of up to 22 minutes are known
  return std::any_of(analysis.defrosts.begin(), analysis.defrosts.end(), [&](const Defrost& one) {
    return one.start_second < to_second + around_second && one.end_second > from_second - around_second &&
           to_second - from_second < one.end_second - one.start_second + 2.0 * around_second;
  });
}

/// Where runs begin and end that only defrosts part.
struct Stretch {
  double start_second = 0.0;
  double end_second = 0.0;
  double second() const { return end_second - start_second; }
};

std::vector<Stretch> stretches_of(const LogAnalysis& analysis) {
  constexpr double no_pause_second = 60.0;
  std::vector<Stretch> stretches;
  for (const CompressorRun& run : analysis.runs) {
    if (!stretches.empty()) {
      Stretch& last = stretches.back();
      const bool goes_on = run.start_second - last.end_second < no_pause_second ||
                           stood_for_defrost(analysis, last.end_second, run.start_second);
      if (goes_on) {
        last.end_second = run.end_second;
        continue;
      }
    }
    stretches.push_back({run.start_second, run.end_second});
  }
  return stretches;
}

/// Mean of a temperature over the columns of a time; nothing where fewer than half of them have a value.
std::optional<double> mean_of(const LogAnalysis& analysis, LogQuantity quantity, double from_second, double to_second) {
  const PlotColumns& columns = analysis.outline.columns();
  const double each = analysis.outline.column_second();
  double sum = 0.0;
  double count = 0.0;
  double all = 0.0;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const double middle = (static_cast<double>(i) + 0.5) * each;
    if (middle < from_second || middle > to_second) continue;
    ++all;
    const PlotExtent& extent = columns[i][index_of(quantity)];
    if (extent.is_empty()) continue;
    sum += 0.5 * static_cast<double>(extent.least + extent.most);
    ++count;
  }
  return count > 0.0 && count * 2.0 >= all ? std::optional<double>(sum / count) : std::nullopt;
}

/// By how much it has to be warmer, or colder, to be another [K].
struct ClearChange {
  double warmer_kelvin = 0.0;
  double colder_kelvin = 0.0;
};

std::optional<OtherTemperature> other_temperature(const LogAnalysis& analysis, LogQuantity quantity,
                                                  const ClearChange& clear) {
  constexpr double at_its_end_second = 6.0 * 3600.0;
  constexpr double cold_kelvin = melting_point_kelvin + 10.0;
  const double end = analysis.coverage.span_second;
  if (end < 2.0 * day_second) return std::nullopt;
  const std::optional<double> last = mean_of(analysis, quantity, end - day_second, end);
  const std::optional<double> at_end = mean_of(analysis, quantity, end - at_its_end_second, end);
  if (!last || !at_end) return std::nullopt;
  // By the sign of the change: the last day and its end are both on one side of all that was before.
  const double usual_before = mean_of(analysis, quantity, 0.0, day_second).value_or(*last);
  const double sign = *last >= usual_before ? 1.0 : -1.0;
  const double after = sign > 0.0 ? std::min(*last, *at_end) : std::max(*last, *at_end);
  const double clearly_other_kelvin = sign > 0.0 ? clear.warmer_kelvin : clear.colder_kelvin;
  const auto was_other = [&](double mean) { return sign * (after - mean) > clearly_other_kelvin; };
  // Back from the end in parts of a day: where was it cold for the last time, and for how long before that?
  double from = end - day_second;
  std::vector<double> before;
  for (double part = end - day_second; part >= 0.5 * at_its_end_second; part -= at_its_end_second) {
    const std::optional<double> mean = mean_of(analysis, quantity, std::max(0.0, part - at_its_end_second), part);
    if (!mean) continue;
    if (before.empty() && !was_other(*mean)) {
      from = std::max(0.0, part - at_its_end_second);
      continue;
    }
    before.push_back(*mean);
  }
  constexpr std::size_t fewest_parts = 2;
  if (before.size() < fewest_parts) return std::nullopt;
  const bool was_always = std::all_of(before.begin(), before.end(), was_other);
  const double usual = median_of(std::move(before));
  if (!was_always || usual > cold_kelvin) return std::nullopt;
  return OtherTemperature{from, usual, after};
}

}  // namespace

std::optional<RunsOn> runs_on(const LogAnalysis& analysis) {
  constexpr std::size_t fewest_before = 4;
  constexpr double at_its_end_second = 2.0 * 3600.0;
  constexpr double long_second = 18.0 * 3600.0;  // a freezer that is filled runs for half a day
  constexpr double longer_than_any = 4.0;
  if (!analysis.has_load || !analysis.run_share || analysis.never_stops) return std::nullopt;
  const std::vector<Stretch> stretches = stretches_of(analysis);
  if (stretches.size() <= fewest_before) return std::nullopt;
  const Stretch last = stretches.back();
  double longest_before = 0.0;
  for (std::size_t i = 0; i + 1 < stretches.size(); ++i)
    longest_before = std::max(longest_before, stretches[i].second());
  const bool is_long = last.second() >= long_second && last.second() >= longer_than_any * longest_before;
  if (!is_long || last.end_second < analysis.coverage.span_second - at_its_end_second) return std::nullopt;
  return RunsOn{last.start_second, last.second()};
}

std::optional<NoCold> no_cold(const LogAnalysis& analysis) {
  constexpr double lasting_second = 12.0 * 3600.0;  // no door and no warm food lasts for so long
  constexpr double hardly_below_kelvin = melting_point_kelvin - 1.0;
  constexpr double nearly_always = 0.9;
  // A coil that takes heat out of the air is several kelvins colder than it (common practice, no source).
  constexpr double takes_no_heat_kelvin = 2.0;
  constexpr double runs_mostly = 0.5;
  const double end = analysis.coverage.span_second;
  if (!analysis.has_coil || analysis.lasting_heat || analysis.standstill || end < 2.0 * lasting_second)
    return std::nullopt;
  const double from = end - lasting_second;
  const auto coil = mean_of(analysis, LogQuantity::coil_temperature, from, end);
  const auto cabinet = mean_of(analysis, LogQuantity::cabinet_temperature, from, end);
  if (!coil) return std::nullopt;
  double running = 0.0;
  for (const CompressorRun& run : analysis.runs)
    running += std::max(0.0, std::min(run.end_second, end) - std::max(run.start_second, from));
  const bool is_seen_to_run = analysis.has_load && analysis.run_share && running > runs_mostly * lasting_second;
  if (analysis.has_load && !is_seen_to_run) return std::nullopt;
  double warm = 0.0;
  double all = 0.0;
  const PlotColumns& columns = analysis.outline.columns();
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const PlotExtent& extent = columns[i][index_of(LogQuantity::coil_temperature)];
    if (extent.is_empty() || (static_cast<double>(i) + 0.5) * analysis.outline.column_second() < from) continue;
    ++all;
    if (static_cast<double>(extent.least) > hardly_below_kelvin) ++warm;
  }
  const bool coil_is_warm = *coil > melting_point_kelvin && warm >= nearly_always * all;
  const bool never_rests = is_seen_to_run && (analysis.never_stops || runs_on(analysis));
  const bool takes_no_heat =
      never_rests && cabinet && *cabinet > freezing_air_kelvin && *cabinet - *coil < takes_no_heat_kelvin;
  if (!coil_is_warm && !takes_no_heat) return std::nullopt;
  return NoCold{*coil, cabinet, coil_is_warm, is_seen_to_run};
}

std::optional<HeaterStep> heater_step(const LogAnalysis& analysis) {
  constexpr std::size_t fewest_before = 2;
  constexpr std::size_t fewest_after = 3;
  constexpr double alike = 0.1;  // what line and warmth make of a resistance's watts
  constexpr double other_level = 0.25;
  std::vector<const Defrost*> heated;
  for (const Defrost& one : analysis.defrosts)
    // Half of a heater may draw as the compressor does: what warmed the coil is one.
    if (one.heater_is_seen && !one.is_cut && one.heater_load > 0.0 &&
        (!one.draws_like_compressor || (one.has_coil && one.rise_is_seen)))
      heated.push_back(&one);
  if (heated.size() < fewest_before + fewest_after) return std::nullopt;
  const double after = heated.back()->heater_load;
  const auto is_as = [](double level) {
    return [level](const Defrost* one) { return std::abs(one->heater_load - level) <= alike * level; };
  };
  const auto first_after = std::find_if_not(heated.rbegin(), heated.rend(), is_as(after)).base();
  const double before = first_after == heated.begin() ? after : (*(first_after - 1))->heater_load;
  const bool is_step = std::abs(before - after) > other_level * std::max(before, after);
  const auto count_before = static_cast<std::size_t>(first_after - heated.begin());
  if (!is_step || count_before < fewest_before || heated.size() - count_before < fewest_after ||
      !std::all_of(heated.begin(), first_after, is_as(before)))
    return std::nullopt;
  return HeaterStep{(*first_after)->start_second, before, after};
}

std::optional<OtherTemperature> other_cabinet(const LogAnalysis& analysis) {
  if (!analysis.has_cabinet) return std::nullopt;
  return other_temperature(analysis, LogQuantity::cabinet_temperature, {5.0, 5.0});
}

std::optional<OtherTemperature> other_coil(const LogAnalysis& analysis) {
  if (!analysis.has_coil) return std::nullopt;
  return other_temperature(analysis, LogQuantity::coil_temperature, {10.0, 6.0});
}

std::optional<double> cabinet_of_neither(const LogAnalysis& analysis) {
  constexpr double warmest_of_a_freezer_kelvin = melting_point_kelvin - 11.0;
  constexpr double coldest_refrigerator_kelvin = melting_point_kelvin - 1.0;
  if (!analysis.has_cabinet || !analysis.has_coil || analysis.coverage.span_second < day_second) return std::nullopt;
  std::vector<double> kelvins;
  for (const auto& column : analysis.outline.columns()) {
    const PlotExtent& extent = column[index_of(LogQuantity::cabinet_temperature)];
    if (!extent.is_empty()) kelvins.push_back(0.5 * static_cast<double>(extent.least + extent.most));
  }
  if (kelvins.empty()) return std::nullopt;
  const double usual = median_of(std::move(kelvins));
  const bool is_neither = usual > warmest_of_a_freezer_kelvin && usual < coldest_refrigerator_kelvin;
  return is_neither ? std::optional<double>(usual) : std::nullopt;
}

}  // namespace ohmwright::cycles
