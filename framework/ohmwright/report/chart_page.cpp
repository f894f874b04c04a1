#include <algorithm>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/chart_scale.hpp>
#include <ohmwright/report/text_plot.hpp>

namespace ohmwright {

namespace {

/// Puts spaces before a text until it takes `width` columns.
std::string right_aligned(const std::string& text, int width) {
  const int columns = columns_of(text);
  return std::string(static_cast<std::size_t>(std::max(0, width - columns)), ' ') + text;
}

/// Writes the page of one chart.
class ChartWriter {
 public:
  ChartWriter(const Chart& chart, const Chart& dense, const Sentences& say, const PageStyle& style)
      : chart_(chart),
        dense_(dense),
        say_(say),
        width_(std::clamp(style.width, 30, 100)),
        scale_(scale_of(dense)),
        condition_(dimension_of_axis(chart)),
        measurand_(chart.descriptor.measurands[index_of(chart.descriptor.measurands, chart.axis.measurand)].dimension) {
  }

  std::string write() {
    title();
    plot();
    for (const ChartLine& line : chart_.lines) table(line);
    if (const std::string remark = remark_on_span(chart_, say_); !remark.empty()) page_ += paragraph(remark, width_);
    return std::move(page_);
  }

 private:
  static Dimension dimension_of_axis(const Chart& chart) {
    return chart.descriptor.conditions[index_of(chart.descriptor.conditions, chart.axis.condition)].dimension;
  }

  void title() {
    const std::string kind = say_.in_domain(chart_.descriptor.text_domain, chart_.descriptor.title);
    page_ += paragraph(
        say_(OHMWRIGHT_TEXT("{kind}, {part}: what a good one reads"), {{"kind", kind}, {"part", chart_.part_title}}),
        width_);
    page_ +=
        paragraph(say_(scale_.logarithmic ? OHMWRIGHT_TEXT("{vertical} (up, logarithmic) against {horizontal} (right)")
                                          : OHMWRIGHT_TEXT("{vertical} (up) against {horizontal} (right)"),
                       {{"vertical", vertical_title(chart_, say_)}, {"horizontal", horizontal_title(chart_, say_)}}),
                  width_);
    page_ += '\n';
  }

  std::string drawn_text(double value) const {
    return with_plain_spaces(is_of_contacts(chart_) ? percent_text(value) : say_.quantity({measurand_, value}));
  }
  std::string condition_text(double value) const { return with_plain_spaces(say_.quantity({condition_, value})); }

  std::vector<PlotColumn> columns(const ChartLine& line, int width) const {
    std::vector<PlotColumn> columns(static_cast<std::size_t>(width));
    for (std::size_t i = 0; i < columns.size(); ++i) {
      const std::size_t nearest = i * (line.points.size() - 1) / std::max<std::size_t>(1, columns.size() - 1);
      const std::optional<Expectation>& expected = line.points[nearest].expected;
      if (!expected) continue;
      columns[i].middle = drawn_value(*expected);
      if (expected->share_closed || limits_are_in_doubt(line.points[nearest])) continue;
      if (expected->limits.lower) columns[i].lower = expected->limits.lower->value_in_si();
      if (expected->limits.upper) columns[i].upper = expected->limits.upper->value_in_si();
    }
    return columns;
  }

  void plot() {
    const std::string top = drawn_text(scale_.highest);
    const std::string bottom = drawn_text(scale_.lowest);
    const int label = std::max(columns_of(top), columns_of(bottom));
    TextPlot plot;
    plot.width = std::max(10, width_ - label - 3);
    plot.height = width_ < 60 ? 10 : 16;
    plot.logarithmic = scale_.logarithmic;
    plot.lowest = scale_.lowest;
    plot.highest = scale_.highest;
    for (const ChartLine& line : dense_.lines) plot.curves.push_back(columns(line, plot.width));
    const double from = dense_.lines.front().points.front().condition;
    const double to = dense_.lines.front().points.back().condition;
    for (const ChartMark& mark : chart_.marks)
      plot.marks.push_back({(mark.condition - from) / (to - from), mark.value, mark.value_half_width});
    const std::vector<std::string> lines = text_plot_lines(plot);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string text = i == 0 ? top : i + 1 == lines.size() ? bottom : "";
      page_ += right_aligned(text, label) + " |" + lines[i] + '\n';
    }
    const std::string left = condition_text(from);
    const std::string indent(static_cast<std::size_t>(label), ' ');
    page_ += indent + " +" + std::string(static_cast<std::size_t>(plot.width), '-') + '\n';
    page_ += indent + "  " + left + right_aligned(condition_text(to), plot.width - columns_of(left)) + '\n';
    page_ += paragraph(legend(), width_);
  }

  std::string legend() const {
    if (!is_of_contacts(chart_))
      return say_(OHMWRIGHT_TEXT("* the curve, : what good parts may read, X a reading, | its doubt"));
    const std::string mark = chart_.marks.empty() ? "" : say_(OHMWRIGHT_TEXT("; X what was seen"));
    if (chart_.axis.state.empty()) return say_(OHMWRIGHT_TEXT("* share of good parts that are closed")) + mark;
    std::string legend = say_(OHMWRIGHT_TEXT("Share of good parts that are closed, by what was before:"));
    for (std::size_t i = 0; i < chart_.lines.size(); ++i)
      legend += (i == 0 ? " " : ", ") + std::string(1, curve_sign(i)) + std::string(unbroken_space) +
                line_title(chart_, chart_.lines[i], say_);
    return legend + say_(OHMWRIGHT_TEXT("; where two meet, the later one is seen")) + mark;
  }

  void row(const std::vector<std::string>& cells) {
    const int column = std::min(16, (width_ - 2) / static_cast<int>(cells.size()));
    page_ += "  ";
    for (const std::string& cell : cells) page_ += ' ' + right_aligned(cell, column - 1);
    page_ += '\n';
  }

  void table(const ChartLine& line) {
    page_ += '\n';
    if (!line.state.empty()) page_ += paragraph(state_title(chart_, line, say_), width_);
    if (is_of_contacts(chart_))
      row({say_(OHMWRIGHT_TEXT("at")), say_(OHMWRIGHT_TEXT("closed"))});
    else
      row({say_(OHMWRIGHT_TEXT("at")), say_(OHMWRIGHT_TEXT("reads")), say_(OHMWRIGHT_TEXT("from")),
           say_(OHMWRIGHT_TEXT("to"))});
    for (const ChartPoint& point : line.points) row(cells_of(point));
  }

  std::vector<std::string> cells_of(const ChartPoint& point) const {
    const std::string at = condition_text(point.condition);
    if (!point.expected)
      return is_of_contacts(chart_) ? std::vector<std::string>{at, "-"} : std::vector<std::string>{at, "-", "-", "-"};
    if (point.expected->share_closed) return {at, drawn_text(*point.expected->share_closed)};
    const std::string doubt = is_past_the_span(point) ? "~" : "";
    const auto limit = [this](const std::optional<AnyQuantity>& side) {
      return side ? drawn_text(side->value_in_si()) : std::string("-");
    };
    return {at, doubt + drawn_text(point.expected->nominal.value_in_si()), limit(point.expected->limits.lower),
            limit(point.expected->limits.upper)};
  }

  const Chart& chart_;
  const Chart& dense_;
  const Sentences& say_;
  int width_;
  ChartScale scale_;
  Dimension condition_;
  Dimension measurand_;
  std::string page_;
};

}  // namespace

std::string chart_page(const Chart& chart, const Chart& dense, const Sentences& say, const PageStyle& style) {
  return ChartWriter(chart, dense, say, style).write();
}

}  // namespace ohmwright
