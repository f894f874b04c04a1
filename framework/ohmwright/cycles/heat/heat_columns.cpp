#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <ohmwright/cycles/heat/heat_columns.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/weakest_heater.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double bridged_pause_second = 200.0;  ///< a heater that pauses for less goes on
constexpr double flowing_share = 0.3;           ///< of the compressor's load: something draws

/// The value that this share of them stays below; `values` are not none.
double quantile_of(std::vector<double> values, double share) {
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

}  // namespace

bool is_coil_of_a_freezer(const LogAnalysis& analysis) {
  constexpr double freezer_kelvin = melting_point_kelvin - 15.0;
  std::vector<double> kelvins;
  for (const auto& column : analysis.outline.columns())
    if (const PlotExtent& extent = column[index_of(LogQuantity::coil_temperature)]; !extent.is_empty())
      kelvins.push_back(0.5 * static_cast<double>(extent.least + extent.most));
  return !kelvins.empty() && median_of(std::move(kelvins)) < freezer_kelvin;
}

HeatColumns::HeatColumns(const LogAnalysis& analysis)
    : analysis_(analysis),
      columns_(analysis.outline.columns()),
      each_(analysis.outline.column_second()),
      load_(index_of(analysis.load_is_current ? LogQuantity::current : LogQuantity::power)) {}

double HeatColumns::end_of(const ColumnStretch& stretch) const {
  return std::min(static_cast<double>(stretch.end) * each_, analysis_.coverage.span_second);
}

bool HeatColumns::is_inside(double from_second, double to_second, const ColumnStretch& stretch) const {
  const double within = std::min(to_second, end_of(stretch)) - std::max(from_second, start_of(stretch));
  return within > 0.5 * (to_second - from_second);
}

ColumnStretch HeatColumns::longest_above(std::size_t quantity, double level) const {
  // A row that is as long as a pause may be one, and nobody sees how long it was.
  const bool sees_pauses = analysis_.coverage.spacing_second < bridged_pause_second;
  const auto bridged = sees_pauses ? static_cast<std::size_t>(bridged_pause_second / each_) : std::size_t{0};
  ColumnStretch best;
  ColumnStretch now;
  std::size_t failed = 0;
  bool open = false;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const PlotExtent& extent = columns_[i][quantity];
    if (extent.is_empty()) continue;
    if (static_cast<double>(extent.least) >= level) {
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

std::optional<double> HeatColumns::mean_in(std::size_t begin, std::size_t end, std::size_t quantity) const {
  double sum = 0.0;
  double count = 0.0;
  for (std::size_t i = begin; i < end; ++i) {
    const PlotExtent& extent = columns_[i][quantity];
    if (extent.is_empty()) continue;
    sum += 0.5 * static_cast<double>(extent.least + extent.most);
    count += 1.0;
  }
  return count > 0.0 ? std::optional<double>(sum / count) : std::nullopt;
}

std::optional<double> HeatColumns::settled(const ColumnStretch& stretch, LogQuantity quantity) const {
  return mean_in((stretch.begin + stretch.end) / 2, stretch.end, index_of(quantity));
}

std::optional<double> HeatColumns::warmest_settled(const ColumnStretch& stretch, LogQuantity quantity) const {
  std::vector<double> most;
  for (std::size_t i = (stretch.begin + stretch.end) / 2; i < stretch.end; ++i)
    if (const PlotExtent& extent = columns_[i][index_of(quantity)]; !extent.is_empty())
      most.push_back(static_cast<double>(extent.most));
  constexpr double nearly_all = 0.9;
  return most.empty() ? std::nullopt : std::optional<double>(quantile_of(std::move(most), nearly_all));
}

double HeatColumns::load_floor(const ColumnStretch& stretch, double share) const {
  std::vector<double> least;
  for (std::size_t i = stretch.begin; i < stretch.end; ++i)
    if (const PlotExtent& extent = columns_[i][load_]; !extent.is_empty())
      least.push_back(static_cast<double>(extent.least));
  return least.empty() ? 0.0 : quantile_of(std::move(least), 1.0 - share);
}

std::size_t HeatColumns::thaws_in(const ColumnStretch& stretch) const {
  constexpr double frozen_kelvin = melting_point_kelvin - 2.0;
  constexpr double thawed_kelvin = melting_point_kelvin + 1.0;
  std::size_t thaws = 0;
  bool is_frozen = false;
  for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
    const PlotExtent& extent = columns_[i][index_of(LogQuantity::coil_temperature)];
    if (extent.is_empty()) continue;
    if (is_frozen && static_cast<double>(extent.most) > thawed_kelvin) {
      ++thaws;
      is_frozen = false;
    }
    if (static_cast<double>(extent.least) < frozen_kelvin) is_frozen = true;
  }
  return thaws;
}

std::optional<double> HeatColumns::compressor_load(const ColumnStretch& stretch) const {
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
std::optional<double> HeatColumns::usual_load(const ColumnStretch& stretch) const {
  std::vector<double> others;
  for (std::size_t i = 0; i < columns_.size(); ++i)
    if ((i < stretch.begin || i >= stretch.end) && !columns_[i][load_].is_empty())
      others.push_back(static_cast<double>(columns_[i][load_].most));
  constexpr double enough_second = 3600.0;
  if (static_cast<double>(others.size()) * each_ < enough_second) return std::nullopt;
  constexpr double nearly_all = 0.95;
  return quantile_of(std::move(others), nearly_all);
}

bool HeatColumns::may_be_heated(const ColumnStretch& stretch, LogQuantity quantity) const {
  const std::optional<double> load = mean_in(stretch.begin, stretch.end, load_);
  if (!load) return true;
  const double weakest = analysis_.load_is_current ? weakest_heater_ampere : weakest_heater_watt;
  const double flows = flowing_share * compressor_load(stretch).value_or(weakest);
  if (*load >= flows) return true;
  // What heated it may have been cut off, and it stays warm for hours.
  std::size_t warmest = stretch.begin;
  for (std::size_t i = stretch.begin; i < stretch.end; ++i) {
    const PlotExtent& extent = columns_[i][index_of(quantity)];
    if (!extent.is_empty() && extent.most > columns_[warmest][index_of(quantity)].most) warmest = i;
  }
  return mean_in(stretch.begin, warmest + 1, load_).value_or(flows) >= flows;
}

bool HeatColumns::is_hot_before_cold(const ColumnStretch& stretch, LogQuantity quantity) const {
  constexpr double first_hours_second = 6.0 * 3600.0;
  constexpr double cold_kelvin = melting_point_kelvin;
  constexpr double warm_kelvin = melting_point_kelvin + 35.0;
  if (start_of(stretch) > first_hours_second) return false;
  bool is_cold = false;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    const PlotExtent& extent = columns_[i][index_of(quantity)];
    if (extent.is_empty()) continue;
    if (i < stretch.end && static_cast<double>(extent.least) < cold_kelvin) return false;
    if (i >= stretch.end && static_cast<double>(extent.most) < cold_kelvin) is_cold = true;
    if (is_cold && static_cast<double>(extent.least) > warm_kelvin) return false;
  }
  return is_cold;
}

}  // namespace ohmwright::cycles
