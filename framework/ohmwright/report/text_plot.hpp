#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace ohmwright {

/// One column's worth of a curve between its limits, in the units of the plot's axes.
struct PlotColumn {
  std::optional<double> middle;
  std::optional<double> lower;
  std::optional<double> upper;
};

/// A point with its doubt on a plot: 0…1 along the width, and in the unit of the vertical axis.
struct PlotMark {
  double along = 0.0;
  double value = 0.0;
  double half_width = 0.0;
};

/// What the curve with that index is drawn with: `*` the first, then `o`, `+`, `#`; further ones begin anew.
char curve_sign(std::size_t index);

/// A plot in characters: `curve_sign` a curve, `:` between its limits, `|` a mark's doubt, `X` the mark.
struct TextPlot {
  int width = 60;   ///< columns of the plot itself, at least 10
  int height = 15;  ///< lines, at least 5
  bool logarithmic = false;
  std::vector<std::vector<PlotColumn>> curves;  ///< each as many columns as the width
  std::vector<PlotMark> marks;
  double lowest = 0.0;  ///< of the vertical axis; lowest < highest, both above 0 where it is logarithmic
  double highest = 1.0;
};

/// The lines of the plot, top first, without labels.
std::vector<std::string> text_plot_lines(const TextPlot& plot);

}  // namespace ohmwright
