#include <algorithm>
#include <array>
#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_plot.hpp>
#include <ohmwright/report/log_words.hpp>
#include <ohmwright/report/text_plot.hpp>

namespace ohmwright {

namespace {

constexpr int plot_height = 7;
constexpr int narrowest_plot = 10;

struct PlottedQuantity {
  cycles::LogQuantity quantity;
  std::string_view english;
};

constexpr std::array plotted_quantities{
    PlottedQuantity{cycles::LogQuantity::coil_temperature, OHMWRIGHT_TEXT("Temperature of the coil")},
    PlottedQuantity{cycles::LogQuantity::cabinet_temperature, OHMWRIGHT_TEXT("Temperature of the cabinet")},
    PlottedQuantity{cycles::LogQuantity::power, OHMWRIGHT_TEXT("Power")},
    PlottedQuantity{cycles::LogQuantity::current, OHMWRIGHT_TEXT("Current")},
};

std::string value_text(cycles::LogQuantity quantity, double value) {
  switch (quantity) {
    case cycles::LogQuantity::power:
      return rounded(value) + " W";
    case cycles::LogQuantity::current:
      return rounded(value, 2) + " A";
    default:
      return degrees_text(value);
  }
}

cycles::PlotExtent extent_of(const cycles::PlotColumns& columns, cycles::LogQuantity quantity) {
  cycles::PlotExtent extent;
  for (const auto& column : columns) {
    const cycles::PlotExtent& one = column[cycles::index_of(quantity)];
    if (one.is_empty()) continue;
    extent.take(one.least);
    extent.take(one.most);
  }
  return extent;
}

/// One column of the plot from however many of the outline fall into it.
std::vector<PlotColumn> plot_columns(const cycles::PlotColumns& columns, cycles::LogQuantity quantity, int width) {
  std::vector<PlotColumn> result(static_cast<std::size_t>(width));
  for (std::size_t i = 0; i < result.size(); ++i) {
    const std::size_t from = i * columns.size() / result.size();
    const std::size_t to = std::max(from + 1, (i + 1) * columns.size() / result.size());
    cycles::PlotExtent extent;
    for (std::size_t c = from; c < std::min(to, columns.size()); ++c) {
      const cycles::PlotExtent& one = columns[c][cycles::index_of(quantity)];
      if (!one.is_empty()) extent.take(one.least), extent.take(one.most);
    }
    if (extent.is_empty()) continue;
    result[i].lower = static_cast<double>(extent.least);
    result[i].upper = static_cast<double>(extent.most);
    result[i].middle = static_cast<double>(extent.most);
  }
  return result;
}

std::string right(const std::string& text, int width) {
  return std::string(static_cast<std::size_t>(std::max(0, width - columns_of(text))), ' ') + text;
}

}  // namespace

std::vector<std::string> log_plot_lines(const LogReport& report, const Sentences& say, int width) {
  const cycles::PlotColumns& columns = report.analysis.outline.columns();
  const auto shown =
      std::find_if(plotted_quantities.begin(), plotted_quantities.end(),
                   [&](const PlottedQuantity& one) { return !extent_of(columns, one.quantity).is_empty(); });
  if (shown == plotted_quantities.end()) return {};
  const cycles::PlotExtent extent = extent_of(columns, shown->quantity);
  TextPlot plot;
  plot.lowest = static_cast<double>(extent.least);
  plot.highest = std::max(static_cast<double>(extent.most), plot.lowest + 1e-3);
  const std::string top = value_text(shown->quantity, plot.highest);
  const std::string bottom = value_text(shown->quantity, plot.lowest);
  const int label = std::max(columns_of(top), columns_of(bottom));
  plot.width = std::max(narrowest_plot, width - label - 2);
  plot.height = plot_height;
  plot.curves.push_back(plot_columns(columns, shown->quantity, plot.width));
  std::vector<std::string> lines{say(shown->english)};
  const std::vector<std::string> drawn = text_plot_lines(plot);
  for (std::size_t i = 0; i < drawn.size(); ++i)
    lines.push_back(right(i == 0 ? top : i + 1 == drawn.size() ? bottom : "", label) + " |" + drawn[i]);
  const double span = report.analysis.outline.column_second() * static_cast<double>(columns.size());
  std::string marks(static_cast<std::size_t>(plot.width), '-');
  for (const cycles::Defrost& defrost : report.analysis.defrosts) {
    const double along = 0.5 * (defrost.start_second + defrost.end_second) / span;
    marks[std::min(marks.size() - 1, static_cast<std::size_t>(along * static_cast<double>(marks.size())))] = '#';
  }
  lines.push_back(right("", label) + " +" + marks);
  std::string from = log_time_text(0.0, report.reader.start_second());
  std::string to = log_time_text(report.analysis.coverage.span_second, report.reader.start_second());
  if (report.reader.start_second() && columns_of(from) + columns_of(to) >= plot.width) {
    constexpr std::size_t year_and_mark = 5;  // the head of the page tells it
    from.erase(0, year_and_mark);
    to.erase(0, year_and_mark);
  }
  lines.push_back(right("", label) + "  " + from + right(to, plot.width - columns_of(from)));
  if (report.analysis.defrost_count > 0) lines.push_back(right("", label) + "  " + say(OHMWRIGHT_TEXT("# a defrost")));
  return lines;
}

}  // namespace ohmwright
