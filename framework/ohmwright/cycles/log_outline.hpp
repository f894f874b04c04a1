#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <vector>

#include <ohmwright/cycles/log_row.hpp>

namespace ohmwright::cycles {

/// What a log is drawn from.
struct PlotPoint {
  double second = 0.0;
  double width_second = 0.0;  ///< time that the point stands for
  /// In the order of `log_quantities`; a load of watts that were made of amperes stands under power.
  std::array<float, log_quantity_count> value{};
};

/// Least and greatest of a quantity within a column of a plot.
struct PlotExtent {
  float least = std::numeric_limits<float>::infinity();
  float most = -std::numeric_limits<float>::infinity();

  bool is_empty() const { return least > most; }
  void take(float value) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
};

using PlotColumns = std::vector<std::array<PlotExtent, log_quantity_count>>;

/// A whole log in so few columns that it can be drawn, each with its least and its greatest: nothing that stands out
/// is lost. The columns become twice as wide whenever the log outgrows them, so that memory does not grow.
class LogOutline {
 public:
  static constexpr std::size_t most_columns = 2048;

  void add(const PlotPoint& point);

  const PlotColumns& columns() const { return columns_; }
  double column_second() const { return column_second_; }
  /// The log in about `count` columns, no more than it has.
  PlotColumns in_columns(std::size_t count) const;

 private:
  void double_width();

  PlotColumns columns_;
  double column_second_ = 20.0;
};

}  // namespace ohmwright::cycles
