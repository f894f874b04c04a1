#pragma once

#include <cstddef>
#include <optional>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// A load of so many times the compressor's is not the compressor's alone. (Here and beside the rules: common practice
/// without a source, chosen so that no healthy log that the tests make comes near.)
inline constexpr double above_compressor = 1.3;

/// Whether the coil is as cold as a freezer's: below -15 degC for half of the time and more (common practice, no
/// source).
bool is_coil_of_a_freezer(const LogAnalysis& analysis);

/// Columns [begin, end) of the outline.
struct ColumnStretch {
  std::size_t begin = 0;
  std::size_t end = 0;
  std::size_t filled = 0;  ///< of which so many hold a value
};

/// An analysed log by the columns of its outline, as the rules on lasting heat look at it.
class HeatColumns {
 public:
  explicit HeatColumns(const LogAnalysis& analysis);

  const LogAnalysis& analysis() const { return analysis_; }
  const PlotColumns& columns() const { return columns_; }
  /// Under which the load stands, power or current.
  std::size_t load() const { return load_; }

  double second_of(const ColumnStretch& stretch) const { return static_cast<double>(stretch.filled) * each_; }
  double start_of(const ColumnStretch& stretch) const { return static_cast<double>(stretch.begin) * each_; }
  double end_of(const ColumnStretch& stretch) const;
  /// Whether more than half of that time lies within the stretch.
  bool is_inside(double from_second, double to_second, const ColumnStretch& stretch) const;

  /// The longest stretch whose least values are all above `level`; columns without a value neither hold nor end it, and
  /// a pause that rows show as one is bridged.
  ColumnStretch longest_above(std::size_t quantity, double level) const;

  /// Mean of a quantity over the columns [begin, end).
  std::optional<double> mean_in(std::size_t begin, std::size_t end, std::size_t quantity) const;
  /// Mean over the second half of the stretch.
  std::optional<double> settled(const ColumnStretch& stretch, LogQuantity quantity) const;
  /// What a quantity stays below in nine tenths of the second half: a coil that heats and is cooled in turns is cold in
  /// the mean.
  std::optional<double> warmest_settled(const ColumnStretch& stretch, LogQuantity quantity) const;

  /// What the load stays above in that share of the stretch's columns, 0…1 [W, A]; 0 where it was not logged.
  double load_floor(const ColumnStretch& stretch, double share) const;
  /// How often the coil, frozen before, warmed past the melting point in the columns of the stretch.
  std::size_t thaws_in(const ColumnStretch& stretch) const;

  /// What the compressor draws outside of the stretch [W, A]; nothing where it is not seen to run there. Where a load
  /// towers above all others, what was taken for the compressor's runs may be heatings, and its own level lies below
  /// them.
  std::optional<double> compressor_load(const ColumnStretch& stretch) const;

  /// Whether something may heat in a stretch that a temperature marks: false where a load was logged and did not flow,
  /// neither in all of it nor while it warmed. A probe in the sun gets hot without a load, and so does what was
  /// unplugged in a hot room.
  bool may_be_heated(const ColumnStretch& stretch, LogQuantity quantity) const;

  /// Whether the stretch lies in the log's first hours, nothing was cold before it, and after it that temperature is
  /// cold to the log's end: the logger may not have been in the appliance yet.
  bool is_hot_before_cold(const ColumnStretch& stretch, LogQuantity quantity) const;

 private:
  std::optional<double> usual_load(const ColumnStretch& stretch) const;

  const LogAnalysis& analysis_;
  const PlotColumns& columns_;
  double each_;
  std::size_t load_;
};

}  // namespace ohmwright::cycles
