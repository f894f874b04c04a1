#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/lasting_heat.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

namespace {

// All of these are common practice without a source, chosen so that no healthy log that the tests make comes near.
constexpr double past_any_limit_second = 2.0 * 3600.0;  ///< defrosts are ended after 15 to 60 minutes
constexpr double hot_for_second = 3600.0;               ///< so long no defrost keeps the coil hot
constexpr double hot_kelvin = 318.15;                   ///< 45 degC: no room is so warm, no good defrost ends there
constexpr double coil_cools_below_kelvin = melting_point_kelvin + 5.0;
constexpr double cold_air_kelvin = melting_point_kelvin;
constexpr double warm_air_kelvin =
    308.15;                                ///< 35 degC: few rooms are so warm, and what is unplugged ends at the room's
constexpr double hot_air_kelvin = 313.15;  ///< 40 degC: something heats it
constexpr double never_ran_so_long_second = 12.0 * 3600.0;
constexpr double longer_than_any_run = 4.0;          ///< times: it had always stopped before
constexpr double asked_about_second = 4.0 * 3600.0;  ///< an inverter runs fast for some hours when it is filled
constexpr double pause_second = 200.0;               ///< a heater that pauses for less goes on
constexpr double above_compressor = 1.3;
constexpr double far_above_compressor = 1.5;
constexpr double no_compressor_watt = 250.0;
constexpr double lowest_line_volt = 100.0;
constexpr double like_other_heatings = 0.12;
constexpr double steady_share = 0.06;  ///< a resistance draws within this, a compressor's load wanders
constexpr double widest_line = 1.1;    ///< EN 50160: +- 10 %
constexpr double flowing_share = 0.3;  ///< of the compressor's load: something draws

struct ColumnStretch {
  std::size_t begin = 0;
  std::size_t end = 0;  ///< columns
  std::size_t filled = 0;
};

class HeatFinder {
 public:
  HeatFinder(const LogAnalysis& analysis, const LogRatings& ratings)
      : analysis_(analysis),
        ratings_(ratings),
        columns_(analysis.outline.columns()),
        each_(analysis.outline.column_second()),
        load_(index_of(analysis.load_is_current ? LogQuantity::current : LogQuantity::power)) {}

  std::optional<LastingHeat> find() const {
    std::optional<LastingHeat> heat = by_load();
    if (heat && heat->is_sure) return heat;
    if (const std::optional<LastingHeat> hot = by_coil()) return hot;
    if (const std::optional<LastingHeat> hot = by_air(); hot && (!heat || hot->is_sure)) return hot;
    return heat;
  }

 private:
  static bool has(const PlotExtent& extent) { return !extent.is_empty(); }

  double second_of(const ColumnStretch& stretch) const { return static_cast<double>(stretch.filled) * each_; }

  /// The longest stretch of columns that hold; those without a value neither hold nor end it.
  template <class Holds>
  ColumnStretch longest(std::size_t quantity, Holds holds) const {
    // A row that is as long as a pause may be one, and nobody sees how long it was.
    const bool sees_pauses = analysis_.coverage.spacing_second < pause_second;
    const auto bridged = sees_pauses ? static_cast<std::size_t>(pause_second / each_) : std::size_t{0};
    ColumnStretch best;
    ColumnStretch now;
    std::size_t failed = 0;
    bool open = false;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const PlotExtent& extent = columns_[i][quantity];
      if (!has(extent)) continue;
      if (holds(extent)) {
        if (!open) now = {i, i, 0};
        open = true;
        failed = 0;
        now.end = i + 1;
        ++now.filled;
        if (now.filled > best.filled) best = now;
      } else if (open && ++failed > bridged) {
        open = false;
      }
    }
    return best;
  }

  /// The highest level that the load keeps for longer than any defrost heats.
  std::optional<ColumnStretch> highest_lasting() const {
    double most = 0.0;  // by what was drawn at all: where every column rests now and then, standby is no level
    for (const auto& column : columns_)
      if (has(column[load_])) most = std::max(most, static_cast<double>(column[load_].most));
    constexpr double step = 0.95;
    constexpr double lowest = 0.05;
    for (double level = most * step; level > most * lowest; level *= step) {
      const auto above = [level](const PlotExtent& extent) { return static_cast<double>(extent.least) >= level; };
      const ColumnStretch stretch = longest(load_, above);
      if (second_of(stretch) >= past_any_limit_second) return as_wide_as_it_is(stretch);
    }
    return std::nullopt;
  }

  /// With the time before and after it at nearly its level: a compressor that comes and goes beside a heater
  ColumnStretch as_wide_as_it_is(const ColumnStretch& highest) const {
    constexpr double nearly = 0.65;
    const double level = nearly * mean_in(highest.begin, highest.end, load_).value_or(0.0);
    const ColumnStretch wide =
        longest(load_, [level](const PlotExtent& extent) { return static_cast<double>(extent.least) >= level; });
    return wide.begin <= highest.begin && wide.end >= highest.end ? wide : highest;
  }

  double start_of(const ColumnStretch& stretch) const { return static_cast<double>(stretch.begin) * each_; }
  double end_of(const ColumnStretch& stretch) const {
    return std::min(static_cast<double>(stretch.end) * each_, analysis_.coverage.span_second);
  }

  /// Mean of a quantity over the columns [begin, end).
  std::optional<double> mean_in(std::size_t begin, std::size_t end, std::size_t quantity) const {
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = begin; i < end; ++i) {
      const PlotExtent& extent = columns_[i][quantity];
      if (!has(extent)) continue;
      sum += 0.5 * static_cast<double>(extent.least + extent.most);
      count += 1.0;
    }
    return count > 0.0 ? std::optional<double>(sum / count) : std::nullopt;
  }

  std::optional<double> settled(const ColumnStretch& stretch, LogQuantity quantity) const {
    return mean_in((stretch.begin + stretch.end) / 2, stretch.end, index_of(quantity));
  }

  /// What a quantity stays below in nine tenths of the second half: a coil that heats and is cooled in turns is cold in
  /// the mean.
  std::optional<double> warmest_settled(const ColumnStretch& stretch, LogQuantity quantity) const {
    std::vector<double> most;
    for (std::size_t i = (stretch.begin + stretch.end) / 2; i < stretch.end; ++i)
      if (const PlotExtent& extent = columns_[i][index_of(quantity)]; has(extent))
        most.push_back(static_cast<double>(extent.most));
    if (most.empty()) return std::nullopt;
    constexpr double nearly_all = 0.9;
    const auto at = most.begin() + static_cast<std::ptrdiff_t>(nearly_all * static_cast<double>(most.size() - 1));
    std::nth_element(most.begin(), at, most.end());
    return *at;
  }

  /// Whether it stands for half a day and longer, after it had stopped again and again.
  bool had_always_stopped(const ColumnStretch& stretch) const {
    constexpr std::size_t fewest = 3;
    std::size_t runs = 0;
    double longest_run = 0.0;
    for (const CompressorRun& run : analysis_.runs) {
      if (is_inside(run.start_second, run.end_second, stretch) || run.start_second >= end_of(stretch)) continue;
      ++runs;
      longest_run = std::max(longest_run, run.end_second - run.start_second);
    }
    const double stands = end_of(stretch) - start_of(stretch);
    return runs >= fewest && stands >= never_ran_so_long_second && stands >= longer_than_any_run * longest_run;
  }

  bool is_inside(double from_second, double to_second, const ColumnStretch& stretch) const {
    const double within = std::min(to_second, end_of(stretch)) - std::max(from_second, start_of(stretch));
    return within > 0.5 * (to_second - from_second);
  }

  /// What the compressor draws elsewhere in the log; nothing where it is not seen to run there. Where a load towers
  /// above all others, what was taken for the compressor's runs may be heatings, and its own level lies below them.
  std::optional<double> compressor_load(const ColumnStretch& stretch) const {
    constexpr std::size_t fewest = 3;
    std::vector<double> loads;
    for (const CompressorRun& run : analysis_.runs)
      if (!is_inside(run.start_second, run.end_second, stretch) && run.mean_load > 0.0F &&
          run.end_second - run.start_second < past_any_limit_second)
        loads.push_back(static_cast<double>(run.mean_load));
    const std::optional<double> usual = usual_load(stretch);
    if (loads.size() < fewest) return usual;
    const double of_runs = median_of(std::move(loads));
    const double least_of_a_compressor = 0.1 * mean_in(stretch.begin, stretch.end, load_).value_or(0.0);
    return usual && *usual > least_of_a_compressor ? std::min(of_runs, *usual) : of_runs;
  }

  /// What is drawn outside of the stretch, but for the highest twentieth of the time: starts and defrosts.
  std::optional<double> usual_load(const ColumnStretch& stretch) const {
    std::vector<double> others;
    for (std::size_t i = 0; i < columns_.size(); ++i)
      if ((i < stretch.begin || i >= stretch.end) && has(columns_[i][load_]))
        others.push_back(static_cast<double>(columns_[i][load_].most));
    constexpr double enough_second = 3600.0;
    if (static_cast<double>(others.size()) * each_ < enough_second) return std::nullopt;
    constexpr double nearly_all = 0.95;
    const auto at = others.begin() + static_cast<std::ptrdiff_t>(nearly_all * static_cast<double>(others.size() - 1));
    std::nth_element(others.begin(), at, others.end());
    return *at;
  }

  bool is_like_other_heatings(double load, const ColumnStretch& stretch) const {
    std::vector<double> loads;
    for (const Defrost& one : analysis_.defrosts)
      if (one.heater_is_seen && !one.is_cut && !is_inside(one.start_second, one.end_second, stretch))
        loads.push_back(one.heater_load);
    if (loads.empty()) return false;
    const double usual = median_of(std::move(loads));
    return std::abs(load - usual) < like_other_heatings * usual;
  }

  /// Whether the rated heater draws so much, at the line that was said or at any.
  bool is_like_rated(double load) const {
    if (!ratings_.heater_watt || ratings_.heater_volt <= 0.0 || analysis_.load_is_current) return false;
    const double line = ratings_.line_volt.value_or(ratings_.heater_volt) / ratings_.heater_volt;
    const double doubt = ratings_.line_volt ? 1.0 : widest_line;
    return load > ratings_.heater_watt->lower * line * line / (doubt * doubt) &&
           load < ratings_.heater_watt->upper * line * line * doubt * doubt;
  }

  bool is_steady(const ColumnStretch& stretch, double load) const {
    std::vector<double> swings;
    for (std::size_t i = stretch.begin; i < stretch.end; ++i)
      if (has(columns_[i][load_]))
        swings.push_back(std::max(std::abs(static_cast<double>(columns_[i][load_].most) - load),
                                  std::abs(static_cast<double>(columns_[i][load_].least) - load)));
    return median_of(std::move(swings)) < steady_share * load;
  }

  bool is_cooled(const ColumnStretch& stretch) const {
    if (const std::optional<double> coil = warmest_settled(stretch, LogQuantity::coil_temperature))
      return *coil < coil_cools_below_kelvin;
    const std::optional<double> air = settled(stretch, LogQuantity::cabinet_temperature);
    return air && *air < cold_air_kelvin;
  }

  std::optional<LastingHeat> by_load() const {
    if (!analysis_.has_load) return std::nullopt;
    const std::optional<ColumnStretch> stretch = highest_lasting();
    if (!stretch || is_cooled(*stretch)) return std::nullopt;
    const double load = mean_in(stretch->begin, stretch->end, load_).value_or(0.0);
    if (load <= 0.0) return std::nullopt;
    LastingHeat heat{start_of(*stretch), end_of(*stretch), load, settled(*stretch, LogQuantity::coil_temperature)};
    const std::optional<double> compressor = compressor_load(*stretch);
    const bool is_above = compressor && load > above_compressor * *compressor;
    const double most_of_compressors =
        analysis_.load_is_current ? no_compressor_watt / lowest_line_volt : no_compressor_watt;
    const bool is_far_above = compressor && load > far_above_compressor * *compressor && load > most_of_compressors &&
                              heat.second() >= asked_about_second;
    const bool alone_like_rated = !compressor && is_like_rated(load) && is_steady(*stretch, load);
    heat.is_sure = (heat.kelvin && *heat.kelvin > hot_kelvin) || is_far_above || alone_like_rated ||
                   (is_above && (is_like_rated(load) || is_like_other_heatings(load, *stretch)));
    const bool is_one_level = !compressor && heat.second() >= 0.8 * analysis_.coverage.observed_second;
    const bool is_asked_about =
        heat.second() >= asked_about_second && (is_above || is_one_level || had_always_stopped(*stretch));
    return heat.is_sure || is_asked_about ? std::optional<LastingHeat>(heat) : std::nullopt;
  }

  std::optional<LastingHeat> by_coil() const {
    if (!analysis_.has_coil) return std::nullopt;
    const std::size_t coil = index_of(LogQuantity::coil_temperature);
    const ColumnStretch stretch =
        longest(coil, [](const PlotExtent& extent) { return static_cast<double>(extent.least) > hot_kelvin; });
    if (second_of(stretch) < hot_for_second) return std::nullopt;
    const std::optional<double> load = mean_in(stretch.begin, stretch.end, load_);
    // A probe that lies in the sun gets hot without a load.
    if (load && *load < flowing_share * compressor_load(stretch).value_or(0.0)) return std::nullopt;
    return LastingHeat{start_of(stretch), end_of(stretch), load, settled(stretch, LogQuantity::coil_temperature), true};
  }

  /// The air alone: warmer than what is unplugged gets.
  std::optional<LastingHeat> by_air() const {
    const std::size_t air = index_of(LogQuantity::cabinet_temperature);
    const ColumnStretch stretch =
        longest(air, [](const PlotExtent& extent) { return static_cast<double>(extent.least) > warm_air_kelvin; });
    if (second_of(stretch) < past_any_limit_second) return std::nullopt;
    LastingHeat heat{start_of(stretch), end_of(stretch), std::nullopt,
                     settled(stretch, LogQuantity::cabinet_temperature)};
    heat.is_of_air = true;
    heat.is_sure = heat.kelvin && *heat.kelvin > hot_air_kelvin;
    return heat;
  }

  const LogAnalysis& analysis_;
  const LogRatings& ratings_;
  const PlotColumns& columns_;
  double each_;
  std::size_t load_;
};

}  // namespace

std::optional<LastingHeat> find_lasting_heat(const LogAnalysis& analysis, const LogRatings& ratings) {
  return HeatFinder(analysis, ratings).find();
}

}  // namespace ohmwright::cycles
