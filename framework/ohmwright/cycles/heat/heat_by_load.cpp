#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <ohmwright/cycles/heat/heat_rules.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/weakest_heater.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double coil_cools_below_kelvin = melting_point_kelvin + 5.0;
constexpr double cold_air_kelvin = melting_point_kelvin;
constexpr double never_ran_so_long_second = 12.0 * 3600.0;
constexpr double longer_than_any_run = 4.0;          ///< times: it had always stopped before
constexpr double asked_about_second = 4.0 * 3600.0;  ///< an inverter runs fast for some hours when it is filled
constexpr double far_above_compressor = 1.5;
constexpr double no_compressor_watt = 250.0;
constexpr double lowest_line_volt = 100.0;
constexpr double like_other_heatings = 0.12;
constexpr double steady_share = 0.06;  ///< a resistance draws within this, a compressor's load wanders

/// With the time before and after it at nearly its level: a compressor may come and go beside a heater.
ColumnStretch as_wide_as_it_is(const HeatColumns& log, const ColumnStretch& highest) {
  constexpr double nearly = 0.65;
  const double level = nearly * log.mean_in(highest.begin, highest.end, log.load()).value_or(0.0);
  const ColumnStretch wide = log.longest_above(log.load(), level);
  return wide.begin <= highest.begin && wide.end >= highest.end ? wide : highest;
}

/// The highest level that the load keeps for longer than any defrost heats.
std::optional<ColumnStretch> highest_lasting(const HeatColumns& log) {
  double most = 0.0;  // by what was drawn at all: where every column rests now and then, standby is no level
  for (const auto& column : log.columns())
    if (!column[log.load()].is_empty()) most = std::max(most, static_cast<double>(column[log.load()].most));
  constexpr double step = 0.95;
  constexpr double lowest = 0.05;
  for (double level = most * step; level > most * lowest; level *= step) {
    const ColumnStretch stretch = log.longest_above(log.load(), level);
    if (log.second_of(stretch) >= past_any_limit_second) return as_wide_as_it_is(log, stretch);
  }
  return std::nullopt;
}

bool is_cooled(const HeatColumns& log, const ColumnStretch& stretch) {
  if (const std::optional<double> coil = log.warmest_settled(stretch, LogQuantity::coil_temperature))
    return *coil < coil_cools_below_kelvin;
  const std::optional<double> air = log.settled(stretch, LogQuantity::cabinet_temperature);
  return air && *air < cold_air_kelvin;
}

/// Whether it stands for half a day and longer, after it had stopped again and again.
bool had_always_stopped(const HeatColumns& log, const ColumnStretch& stretch) {
  constexpr std::size_t fewest = 3;
  std::size_t runs = 0;
  double longest_run = 0.0;
  for (const CompressorRun& run : log.analysis().runs) {
    if (log.is_inside(run.start_second, run.end_second, stretch) || run.start_second >= log.end_of(stretch)) continue;
    ++runs;
    longest_run = std::max(longest_run, run.end_second - run.start_second);
  }
  const double stands = log.end_of(stretch) - log.start_of(stretch);
  return runs >= fewest && stands >= never_ran_so_long_second && stands >= longer_than_any_run * longest_run;
}

bool is_like_other_heatings(const HeatColumns& log, double load, const ColumnStretch& stretch) {
  std::vector<double> loads;
  for (const Defrost& one : log.analysis().defrosts)
    if (one.heater_is_seen && !one.is_cut && !log.is_inside(one.start_second, one.end_second, stretch))
      loads.push_back(one.heater_load);
  if (loads.empty()) return false;
  const double usual = median_of(std::move(loads));
  return std::abs(load - usual) < like_other_heatings * usual;
}

/// Whether the rated heater draws so much, at the line that was said or at any.
bool is_like_rated(const LogAnalysis& analysis, const LogRatings& ratings, double load) {
  if (!ratings.heater_watt || ratings.heater_volt <= 0.0 || analysis.load_is_current) return false;
  const double line = ratings.line_volt.value_or(ratings.heater_volt) / ratings.heater_volt;
  const double doubt = ratings.line_volt ? 1.0 : highest_line_share;
  return load > ratings.heater_watt->lower * line * line / (doubt * doubt) &&
         load < ratings.heater_watt->upper * line * line * doubt * doubt;
}

bool is_steady(const HeatColumns& log, const ColumnStretch& stretch, double load) {
  std::vector<double> swings;
  for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
    const PlotExtent& extent = log.columns()[i][log.load()];
    if (!extent.is_empty())
      swings.push_back(std::max(std::abs(static_cast<double>(extent.most) - load),
                                std::abs(static_cast<double>(extent.least) - load)));
  }
  return median_of(std::move(swings)) < steady_share * load;
}

/// More than any compressor draws.
bool is_no_compressors(const LogAnalysis& analysis, double load) {
  return load > (analysis.load_is_current ? no_compressor_watt / lowest_line_volt : no_compressor_watt);
}

/// What speaks for heat in a load that stands; nothing where a compressor may well run so long.
std::optional<HeatGround> ground_of(const HeatColumns& log, const LogRatings& ratings, const ColumnStretch& stretch,
                                    const LastingHeat& heat) {
  if (heat.kelvin && *heat.kelvin > hottest_good_end_kelvin) return HeatGround::hot_coil;
  const double load = *heat.load;
  const bool is_long = heat.second() >= asked_about_second;
  const bool is_rated = is_like_rated(log.analysis(), ratings, load);
  const std::optional<double> compressor = log.compressor_load(stretch);
  const bool is_one_level = !compressor && heat.second() >= 0.8 * log.analysis().coverage.observed_second;
  if (!compressor && is_rated && is_steady(log, stretch, load)) return HeatGround::like_rated_heater;
  const bool is_above = compressor && load > above_compressor * *compressor;
  if (is_above && is_rated) return HeatGround::like_rated_heater;
  if (is_above && is_like_other_heatings(log, load, stretch)) return HeatGround::like_other_heatings;
  if (compressor && load > far_above_compressor * *compressor && is_no_compressors(log.analysis(), load) && is_long)
    return HeatGround::far_above_compressor;
  if (is_long && (is_above || is_one_level || had_always_stopped(log, stretch))) return HeatGround::load_stands;
  return std::nullopt;
}

/// Whether a load is that of heater and compressor: their sum, or the heater's level, below which it does not fall, and
/// something beside it.
bool is_of_both(const HeatColumns& log, const ColumnStretch& stretch, double load) {
  const std::optional<double> compressor = log.compressor_load(stretch);
  if (!compressor || load < above_compressor * *compressor) return false;
  constexpr double nearly_always = 0.9;
  const double lowest = log.load_floor(stretch, nearly_always);
  constexpr double clearly_above = 1.1;
  return is_like_other_heatings(log, load - *compressor, stretch) ||
         (load > clearly_above * lowest && is_like_other_heatings(log, lowest, stretch));
}

/// Whether the load of the stretch never falls below a heater's, and no noise makes that floor: a resistance's is even.
bool stands_on_a_heaters_watts(const HeatColumns& log, const ColumnStretch& stretch) {
  constexpr double nearly_always = 0.98;  // the logger's first rows may be of before it was switched on
  constexpr double mostly = 0.95;
  const double weakest = log.analysis().load_is_current ? weakest_heater_ampere : weakest_heater_watt;
  const double floor = log.load_floor(stretch, nearly_always);
  return floor >= weakest && log.load_floor(stretch, mostly) < (1.0 + steady_share) * floor;
}

/// Whether the coil thaws oftener than any control defrosts, in a freezer: its cabinet stays frozen, or its coil is
/// that cold, or did not thaw so before. A refrigerator's thaws in each pause.
bool thaws_as_no_freezer(const HeatColumns& log, const ColumnStretch& stretch) {
  constexpr double fewest = 4.0;
  const auto come_often = [&](const ColumnStretch& part) {
    const double second = static_cast<double>(part.end - part.begin) * log.analysis().outline.column_second();
    return static_cast<double>(log.thaws_in(part)) * oftener_than_controls_second > second;
  };
  if (static_cast<double>(log.thaws_in(stretch)) < fewest || !come_often(stretch)) return false;
  const std::optional<double> air = log.settled(stretch, LogQuantity::cabinet_temperature);
  if (air) return *air < freezing_air_kelvin;
  if (is_coil_of_a_freezer(log.analysis())) return true;
  return log.start_of(stretch) > never_ran_so_long_second && !come_often({0, stretch.begin, 0});
}

/// A load that from the log's beginning on never falls below a heater's: one is on beside a compressor that comes and
/// goes, or a compressor of few watts more never stops. Nothing where little is drawn beside what else comes and goes,
/// as by fans and door heaters, unless the coil rises without anything else that draws.
std::optional<LastingHeat> load_that_never_falls(const HeatColumns& log) {
  constexpr double most_of_it = 0.9;
  constexpr double good_part = 0.4;
  const LogAnalysis& analysis = log.analysis();
  const ColumnStretch whole{0, log.columns().size(), log.columns().size()};
  if (!stands_on_a_heaters_watts(log, whole)) return std::nullopt;
  constexpr double nearly_always = 0.98;
  const double floor = log.load_floor(whole, nearly_always);
  const ColumnStretch stretch = log.longest_above(log.load(), most_of_it * floor);
  const double stands = log.end_of(stretch) - log.start_of(stretch);
  if (stands < never_ran_so_long_second || stands < most_of_it * analysis.coverage.span_second) return std::nullopt;
  const bool rises_unseen = std::any_of(analysis.defrosts.begin(), analysis.defrosts.end(), [](const Defrost& one) {
    return one.rise_is_seen && one.has_load && !one.heater_is_seen && !one.is_cut;
  });
  const double mean = log.mean_in(stretch.begin, stretch.end, log.load()).value_or(0.0);
  if (floor < good_part * mean && !rises_unseen) return std::nullopt;
  return LastingHeat{log.start_of(stretch), log.end_of(stretch), floor,
                     log.settled(stretch, LogQuantity::coil_temperature),
                     thaws_as_no_freezer(log, stretch) ? HeatGround::thaws_beside_load : HeatGround::never_falls};
}

/// A load that had always stopped and no longer does to the log's end: a compressor that runs on, or, where the coil
/// stays cold, one that wins against a heater; beside no temperature it may be either. Nothing where it does not last
/// so long.
std::optional<LastingHeat> load_that_never_rests(const HeatColumns& log, const ColumnStretch& highest) {
  constexpr double above_rest = 0.4;  // of its mean: beside a heater a compressor may pause
  constexpr double at_its_end_second = 3600.0;
  const double level = above_rest * log.mean_in(highest.begin, highest.end, log.load()).value_or(0.0);
  const ColumnStretch stretch = log.longest_above(log.load(), level);
  const bool lasts_to_the_end = log.end_of(stretch) >= log.analysis().coverage.span_second - at_its_end_second;
  if (level <= 0.0 || !lasts_to_the_end || !had_always_stopped(log, stretch)) return load_that_never_falls(log);
  const double load = log.mean_in(stretch.begin, stretch.end, log.load()).value_or(0.0);
  LastingHeat heat{log.start_of(stretch), log.end_of(stretch), load,
                   log.settled(stretch, LogQuantity::coil_temperature)};
  const bool thaws = stands_on_a_heaters_watts(log, stretch) && thaws_as_no_freezer(log, stretch);
  heat.ground = is_of_both(log, stretch, load) ? HeatGround::like_other_heatings
                : thaws                        ? HeatGround::thaws_beside_load
                : is_cooled(log, stretch)      ? HeatGround::never_rests_cold
                                               : HeatGround::never_rests;
  return heat;
}

/// Whether the load comes and goes after it, for hours and lower than in it.
bool comes_and_goes_after(const HeatColumns& log, const ColumnStretch& stretch, double load) {
  constexpr std::size_t fewest = 3;
  constexpr double clearly_lower = 0.8;
  constexpr double for_second = 6.0 * 3600.0;
  if (log.analysis().coverage.span_second - log.end_of(stretch) < for_second) return false;
  std::size_t runs = 0;
  for (const CompressorRun& run : log.analysis().runs)
    if (run.start_second > log.end_of(stretch) && static_cast<double>(run.mean_load) < clearly_lower * load) ++runs;
  return runs >= fewest;
}

/// Whether the load comes and goes after it as a compressor's of the same level does.
bool runs_alike_after(const HeatColumns& log, const ColumnStretch& stretch, double load) {
  constexpr std::size_t fewest = 6;
  constexpr double like_it = 0.2;
  std::size_t runs = 0;
  for (const CompressorRun& run : log.analysis().runs)
    if (run.start_second > log.end_of(stretch) && std::abs(static_cast<double>(run.mean_load) - load) < like_it * load)
      ++runs;
  return runs >= fewest;
}

/// In rows so far apart one start of a compressor makes the level of hours: what it draws is no ground.
bool rows_blur_levels(const LogAnalysis& analysis) {
  constexpr double farthest_rows_second = 600.0;
  return analysis.coverage.spacing_second > farthest_rows_second;
}

}  // namespace

std::optional<LastingHeat> heat_by_load(const HeatColumns& log, const LogRatings& ratings) {
  if (!log.analysis().has_load) return std::nullopt;
  const std::optional<ColumnStretch> stretch = highest_lasting(log);
  if (!stretch) return std::nullopt;
  if (is_cooled(log, *stretch)) return load_that_never_rests(log, *stretch);
  const double load = log.mean_in(stretch->begin, stretch->end, log.load()).value_or(0.0);
  if (load <= 0.0) return std::nullopt;
  LastingHeat heat{log.start_of(*stretch), log.end_of(*stretch), load,
                   log.settled(*stretch, LogQuantity::coil_temperature)};
  const std::optional<HeatGround> ground = ground_of(log, ratings, *stretch, heat);
  if (!ground || !is_sure(*ground)) {
    const std::optional<LastingHeat> never_rests = load_that_never_rests(log, *stretch);
    if (!ground || (never_rests && never_rests->is_sure())) return never_rests;
  }
  if (*ground == HeatGround::load_stands && runs_alike_after(log, *stretch, load)) return std::nullopt;
  heat.ground = *ground;
  if (heat.ground == HeatGround::hot_coil) return heat;
  if (rows_blur_levels(log.analysis()) && heat.is_sure()) heat.ground = HeatGround::load_stands;
  heat.has_stopped = heat.is_sure() && comes_and_goes_after(log, *stretch, load);
  return heat;
}

}  // namespace ohmwright::cycles
