#include <algorithm>
#include <cmath>
#include <string_view>

#include <ohmwright/report/text_plot.hpp>

namespace ohmwright {

namespace {

/// Draws into lines of spaces; line 0 is the top.
class Canvas {
 public:
  explicit Canvas(const TextPlot& plot)
      : plot_(plot),
        lines_(static_cast<std::size_t>(plot.height), std::string(static_cast<std::size_t>(plot.width), ' ')) {}

  void draw_band(std::size_t column, const PlotColumn& curve) {
    if (!curve.lower || !curve.upper) return;
    fill(column, *curve.lower, *curve.upper, ':');
  }
  void draw_curve(std::size_t column, const PlotColumn& curve, char sign) {
    if (curve.middle) put(column, *curve.middle, sign);
  }
  void draw_mark(const PlotMark& mark) {
    if (!(mark.along >= 0.0 && mark.along <= 1.0)) return;
    const auto column = static_cast<std::size_t>(std::lround(mark.along * (plot_.width - 1)));
    fill(column, mark.value - mark.half_width, mark.value + mark.half_width, '|');
    put(column, mark.value, 'X');
  }

  std::vector<std::string> take() { return std::move(lines_); }

 private:
  /// Line of a value, in lines from the top; outside of the plot it is not a line of it.
  long line_of(double value) const {
    const auto scaled = [this](double v) { return plot_.logarithmic ? std::log(std::max(v, 1e-300)) : v; };
    const double share = (scaled(value) - scaled(plot_.lowest)) / (scaled(plot_.highest) - scaled(plot_.lowest));
    return std::lround(std::clamp(1.0 - share, -1.0, 2.0) * (plot_.height - 1));
  }
  void put(std::size_t column, double value, char sign) {
    const long line = line_of(value);
    if (line >= 0 && line < plot_.height) lines_[static_cast<std::size_t>(line)][column] = sign;
  }
  void fill(std::size_t column, double lower, double upper, char sign) {
    const long first = std::max(0L, line_of(upper));
    const long last = std::min<long>(plot_.height - 1, line_of(lower));
    for (long line = first; line <= last; ++line) lines_[static_cast<std::size_t>(line)][column] = sign;
  }

  const TextPlot& plot_;
  std::vector<std::string> lines_;
};

}  // namespace

char curve_sign(std::size_t index) {
  constexpr std::string_view signs = "*o+#";
  return signs[index % signs.size()];
}

std::vector<std::string> text_plot_lines(const TextPlot& plot) {
  Canvas canvas(plot);
  for (const std::vector<PlotColumn>& curve : plot.curves)
    for (std::size_t column = 0; column < curve.size(); ++column) canvas.draw_band(column, curve[column]);
  for (std::size_t i = 0; i < plot.curves.size(); ++i)
    for (std::size_t column = 0; column < plot.curves[i].size(); ++column)
      canvas.draw_curve(column, plot.curves[i][column], curve_sign(i));
  for (const PlotMark& mark : plot.marks) canvas.draw_mark(mark);
  return canvas.take();
}

}  // namespace ohmwright
