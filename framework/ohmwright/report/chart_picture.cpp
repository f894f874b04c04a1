#include <algorithm>
#include <array>

#include <fmt/format.h>

#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/chart_scale.hpp>
#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

// Columns that a text may have before it runs out of the picture, or past the axis that it names.
constexpr int columns_across = 46;
constexpr int columns_upright = 28;
constexpr int columns_of_key = 32;

/// Told apart by people who see no red or green, and by their dashes on paper.
constexpr std::array<std::string_view, 4> line_colours{"#2f5d8a", "#c7701a", "#5b8c3a", "#7a3f8a"};

std::string titled(const std::string& title, Unit unit) {
  const std::string symbol = unit.symbol(Spelling::screen);
  return symbol.empty() ? title : title + " [" + symbol + "]";
}

/// Writes the script of one chart.
class ScriptWriter {
 public:
  ScriptWriter(const Chart& chart, const Sentences& say)
      : chart_(chart),
        say_(say),
        scale_(scale_of(chart)),
        horizontal_(say.unit_for({condition_dimension(chart), chart.lines.front().points.back().condition})),
        vertical_(say.unit_for(vertical_quantity(chart, scale_))) {}

  std::string write() {
    const std::string drawn = plot_command();  // its key says how tall the picture is
    script_ +=
        fmt::format("set terminal svg size 480,{} noenhanced background rgb 'white' font 'sans-serif,16'\n", height());
    script_ += "set encoding utf8\nset bars 0.6\n";
    script_ += thin_axes;
    script_ += "set key below left Left reverse maxcols 1 width -12\n";
    if (scale_.logarithmic) script_ += "set logscale y\n";
    script_ += is_of_contacts(chart_) ? contact_range() : vertical_range();
    script_ +=
        "set xlabel " + wrapped_for_gnuplot(titled(horizontal_title(chart_, say_), horizontal_), columns_across) + '\n';
    script_ +=
        "set ylabel " + wrapped_for_gnuplot(titled(vertical_title(chart_, say_), vertical_), columns_upright) + '\n';
    script_ += "set title " + wrapped_for_gnuplot(chart_.part_title, columns_across) + '\n';
    for (std::size_t i = 0; i < chart_.lines.size(); ++i) line_data(i);
    mark_data();
    switching_bands();
    script_ += drawn;
    return std::move(script_);
  }

 private:
  static Dimension condition_dimension(const Chart& chart) {
    return chart.descriptor.conditions[index_of(chart.descriptor.conditions, chart.axis.condition)].dimension;
  }
  static AnyQuantity vertical_quantity(const Chart& chart, const ChartScale& scale) {
    if (is_of_contacts(chart)) return {Dimension::ratio, 0.5};
    const std::uint16_t measurand = index_of(chart.descriptor.measurands, chart.axis.measurand);
    // A logarithmic axis over decades reads best in the unit of its middle.
    const double typical = scale.logarithmic ? scale.lowest * 10.0 : scale.highest;
    return {chart.descriptor.measurands[measurand].dimension, typical};
  }

  std::string x(double si) const { return fmt::format("{:.9g}", horizontal_.from_si(si)); }
  std::string y(double si) const { return fmt::format("{:.9g}", vertical_.from_si(si)); }
  std::string y(const std::optional<AnyQuantity>& side) const { return side ? y(side->value_in_si()) : "NaN"; }

  /// A little more than what is drawn: the limits must not lie on the frame.
  std::string vertical_range() const {
    constexpr double margin = 0.05;
    const double reach = scale_.highest - scale_.lowest;
    const double low = scale_.logarithmic ? scale_.lowest / (1.0 + margin) : scale_.lowest - margin * reach;
    const double high = scale_.logarithmic ? scale_.highest * (1.0 + margin) : scale_.highest + margin * reach;
    return "set yrange [" + y(low) + ":" + y(high) + "]\n";
  }

  /// The key stands below with a line for each entry; what is drawn keeps its height.
  int height() const {
    constexpr int without_key = 417;
    constexpr int of_a_line = 29;
    return without_key + key_lines_ * of_a_line;
  }

  /// The ends of the axis are states; a share is only what lies between.
  std::string contact_range() const {
    return "set yrange [-5:105]\nset ytics (" + quoted_for_gnuplot(say_(OHMWRIGHT_TEXT("open"))) + " 0, '50' 50, " +
           quoted_for_gnuplot(say_(OHMWRIGHT_TEXT("closed"))) + " 100)\n";
  }

  /// Behind the lines: where good parts switch. A part of unknown history switches wherever one of known history does,
  /// so a span that holds others says nothing more.
  void switching_bands() {
    std::vector<SwitchingSpan> spans;
    for (const ChartLine& line : chart_.lines)
      for (const SwitchingSpan& span : switching_spans(line)) spans.push_back(span);
    int number = 0;
    for (const SwitchingSpan& span : spans) {
      const auto lies_within = [&span](const SwitchingSpan& other) {
        return &other != &span && other.from >= span.from && other.to <= span.to &&
               other.to - other.from < span.to - span.from;
      };
      if (std::any_of(spans.begin(), spans.end(), lies_within)) continue;
      script_ += fmt::format(
          "set object {} rectangle from first {}, graph 0 to first {}, graph 1 behind fillcolor rgb '#dfe8f0' "
          "fillstyle solid noborder\n",
          ++number, x(span.from), x(span.to));
    }
  }

  /// "warming", and where good parts switch then.
  std::string title_of(const ChartLine& line) const {
    const std::string state = line.state.empty() ? say_(OHMWRIGHT_TEXT("the curve")) : state_title(chart_, line, say_);
    if (!is_of_contacts(chart_)) return state;
    const std::string name = line.state.empty() ? say_(OHMWRIGHT_TEXT("good parts")) : state_title(chart_, line, say_);
    const std::vector<SwitchingSpan> spans = switching_spans(line);
    if (spans.empty()) return name;
    const Dimension dimension = condition_dimension(chart_);
    return say_(OHMWRIGHT_TEXT("{state}: {lower} to {upper}"),
                {{"state", name},
                 {"lower", say_.quantity({dimension, spans.front().from})},
                 {"upper", say_.quantity({dimension, spans.back().to})}});
  }

  void line_data(std::size_t index) {
    script_ += fmt::format("$line{} << EOD\n", index);
    for (const ChartPoint& point : chart_.lines[index].points) {
      if (!point.expected) {
        script_ += "\n";  // a gap in the line
        continue;
      }
      const std::string limits = y(point.expected->limits.lower) + ' ' + y(point.expected->limits.upper);
      const std::string none = "NaN NaN";
      const bool firm = !limits_are_in_doubt(point);
      script_ += x(point.condition) + ' ' + y(drawn_value(*point.expected)) + ' ' + (firm ? limits : none) + ' ' +
                 (firm ? none : limits) + '\n';
    }
    script_ += "EOD\n";
  }

  void mark_data() {
    if (chart_.marks.empty()) return;
    script_ += "$marks << EOD\n";
    for (const ChartMark& mark : chart_.marks) {
      const double least = scale_.logarithmic ? 1e-3 * mark.value : mark.value - mark.value_half_width;
      script_ += x(mark.condition) + ' ' + y(mark.value) + ' ' + x(mark.condition - mark.condition_half_width) + ' ' +
                 x(mark.condition + mark.condition_half_width) + ' ' +
                 y(std::max(least, mark.value - mark.value_half_width)) + ' ' + y(mark.value + mark.value_half_width) +
                 '\n';
    }
    script_ += "EOD\n";
  }

  /// Something to draw with its line in the key; what is left of a long one stands below it, beside nothing.
  void add_plot(std::string& parts, const std::string& drawn, const std::string& title) {
    const std::vector<std::string> lines = lines_of_width(title, columns_of_key);
    key_lines_ += static_cast<int>(lines.size());
    parts += (parts.empty() ? "plot " : ", ") + drawn + " title " +
             quoted_for_gnuplot(lines.empty() ? std::string() : lines.front());
    for (std::size_t i = 1; i < lines.size(); ++i)
      parts += ", keyentry with lines linecolor rgb 'white' title " + quoted_for_gnuplot(lines[i]);
  }

  std::string plot_command() {
    std::string parts;
    if (!is_of_contacts(chart_))
      for (std::size_t i = 0; i < chart_.lines.size(); ++i)
        add_plot(parts, fmt::format("$line{} using 1:3:4 with filledcurves fillcolor rgb '#c9d8e6'", i),
                 say_(OHMWRIGHT_TEXT("what good parts may read")));
    for (std::size_t i = 0; i < chart_.lines.size(); ++i)
      if (std::any_of(chart_.lines[i].points.begin(), chart_.lines[i].points.end(), limits_are_in_doubt))
        add_plot(parts, fmt::format("$line{} using 1:5:6 with filledcurves fillcolor rgb '#eef2f6'", i),
                 say_(OHMWRIGHT_TEXT("the same, where the curve itself is in doubt")));
    for (std::size_t i = 0; i < chart_.lines.size(); ++i)
      add_plot(parts,
               fmt::format("$line{} using 1:2 with lines linewidth 2 dashtype {} linecolor rgb '{}'", i,
                           i % line_colours.size() + 1, line_colours.at(i % line_colours.size())),
               title_of(chart_.lines[i]));
    if (is_of_contacts(chart_))
      add_plot(parts, "keyentry with boxes fillcolor rgb '#dfe8f0' fillstyle solid",
               say_(OHMWRIGHT_TEXT("where good parts switch")));
    if (!chart_.marks.empty())
      add_plot(parts,
               "$marks using 1:2:3:4:5:6 with xyerrorbars linewidth 2 pointtype 7 pointsize 0.6 linecolor rgb "
               "'#a3201a'",
               say_(OHMWRIGHT_TEXT("the reading and its doubt")));
    return parts + '\n';
  }

  const Chart& chart_;
  const Sentences& say_;
  ChartScale scale_;
  Unit horizontal_;
  Unit vertical_;
  int key_lines_ = 0;
  std::string script_;
};

}  // namespace

std::string picture_script(const Chart& dense, const Sentences& say) { return ScriptWriter(dense, say).write(); }

std::optional<std::string> chart_picture(const Chart& dense, const Sentences& say) {
  std::optional<std::string> svg = run_program({"gnuplot", "-"}, picture_script(dense, say));
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
