#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/log_picture.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright {

namespace {

using cycles::Defrost;
using cycles::LogQuantity;

constexpr double log_second_per_hour = 3600.0;

/// A quantity as it is drawn.
struct DrawnQuantity {
  LogQuantity quantity;
  std::string_view english;
  std::string_view unit;
  double zero = 0.0;
  std::string_view colour;
  std::string_view faint;
};

constexpr std::array drawn_quantities{
    DrawnQuantity{LogQuantity::coil_temperature, OHMWRIGHT_TEXT("coil"), "°C", cycles::melting_point_kelvin, "#2f5d8a",
                  "#a9c0d6"},
    DrawnQuantity{LogQuantity::cabinet_temperature, OHMWRIGHT_TEXT("cabinet"), "°C", cycles::melting_point_kelvin,
                  "#8a5d2f", "#d6c0a9"},
    DrawnQuantity{LogQuantity::power, OHMWRIGHT_TEXT("power"), "W", 0.0, "#444444", "#b8b8b8"},
    DrawnQuantity{LogQuantity::current, OHMWRIGHT_TEXT("current"), "A", 0.0, "#444444", "#b8b8b8"},
};

/// A stretch of time with its name.
struct Phase {
  double from_second = 0.0;
  double to_second = 0.0;
  std::string name;
  std::string_view colour;
};

/// A row of the data: time, and least and greatest of each quantity.
struct DataRow {
  double second = 0.0;
  std::array<cycles::PlotExtent, cycles::log_quantity_count> extents;
  bool ends_line = false;
};

/// Writes the script of a picture in one panel of temperatures and one of load.
class LogScript {
 public:
  LogScript(std::optional<double> start_second, const Sentences& say, PictureSize size, std::vector<DataRow> rows)
      : start_(start_second), say_(say), size_(size), rows_(std::move(rows)) {
    for (const DrawnQuantity& drawn : drawn_quantities)
      for (const DataRow& row : rows_)
        if (!row.extents[cycles::index_of(drawn.quantity)].is_empty()) {
          (drawn.unit == "°C" ? temperatures_ : loads_).push_back(&drawn);
          break;
        }
  }

  std::string write(std::span<const Phase> phases) {
    const std::size_t panels = (temperatures_.empty() ? 0U : 1U) + (loads_.empty() ? 0U : 1U);
    if (panels == 0) return {};
    const int height = static_cast<int>(panels) * size_.panel_height + 60;
    script_ += fmt::format(
        "set terminal svg size {},{} noenhanced background rgb 'white' font 'sans-serif,14'\nset encoding utf8\n",
        size_.width, height);
    script_ += thin_axes;
    script_ += "set lmargin 10\nset rmargin 2\nset key horizontal\n";
    data();
    horizontal();
    script_ += fmt::format("set multiplot layout {},1\n", panels);
    if (!temperatures_.empty()) panel(temperatures_, phases, true, loads_.empty());
    if (!loads_.empty()) panel(loads_, phases, temperatures_.empty(), true);
    script_ += "unset multiplot\n";
    return std::move(script_);
  }

 private:
  double along(double second) const { return start_ ? second + *start_ : second / log_second_per_hour; }

  void data() {
    script_ += "$log << EOD\n";
    for (const DataRow& row : rows_) {
      script_ += fmt::format("{:.3f}", along(row.second));
      for (const DrawnQuantity& drawn : drawn_quantities) {
        const cycles::PlotExtent& extent = row.extents[cycles::index_of(drawn.quantity)];
        if (extent.is_empty())
          script_ += " NaN NaN";
        else
          script_ += fmt::format(" {:.4g} {:.4g}", static_cast<double>(extent.least) - drawn.zero,
                                 static_cast<double>(extent.most) - drawn.zero);
      }
      script_ += row.ends_line ? "\n\n" : "\n";  // an empty line: the line breaks
    }
    script_ += "EOD\n";
  }

  /// Times a round step apart, as many as have room.
  void horizontal() {
    constexpr std::array<double, 14> round_steps{60.0,   120.0,   300.0,   600.0,   1200.0,  1800.0,   3600.0,
                                                 7200.0, 14400.0, 21600.0, 43200.0, 86400.0, 172800.0, 604800.0};
    constexpr double units_of_a_label = 85.0;
    const double span = rows_.back().second - rows_.front().second;
    const double least = span / (static_cast<double>(size_.width) / units_of_a_label);
    const auto step =
        std::find_if(round_steps.begin(), round_steps.end(), [least](double one) { return one >= least; });
    if (start_) {
      const bool has_days = span > 1.5 * 86400.0;
      const bool has_clock = !has_days || (step != round_steps.end() && *step < 86400.0);
      script_ += std::string("set xdata time\nset timefmt '%s'\nset format x \"") + (has_days ? "%m-%d" : "") +
                 (has_days && has_clock ? "\\n" : "") + (has_clock ? "%H:%M" : "") + "\"\n";
    }
    if (step != round_steps.end())
      script_ += fmt::format("set xtics {:.6g}\n", start_ ? *step : *step / log_second_per_hour);
    script_ += fmt::format("set xrange [{0}{1:.3f}{0}:{0}{2:.3f}{0}]\n", start_ ? "'" : "", along(rows_.front().second),
                           along(rows_.back().second));
  }

  void panel(const std::vector<const DrawnQuantity*>& quantities, std::span<const Phase> phases, bool is_first,
             bool is_last) {
    script_ += fmt::format("unset object\nunset label\nset ylabel {}\n",
                           quoted_for_gnuplot(fmt::format("{} [{}]", title_of(quantities), quantities.front()->unit)));
    script_ += is_last && !start_ ? "set xlabel " + quoted_for_gnuplot(say_(OHMWRIGHT_TEXT("hours"))) + "\n"
                                  : std::string("unset xlabel\n");
    script_ += quantities.front()->unit == "°C" ? "set yrange [*:*]\n" : "set yrange [0:*]\n";
    script_ += fmt::format("set ytics {:.6g}\n", step_of_labels(quantities));
    script_ += "set offsets graph 0, 0, graph 0.25, 0\n";                  // room for the names of the phases
    script_ += quantities.size() > 1 ? "set key above\n" : "unset key\n";  // the axis names a single one
    named_up_to_ = -1e300;
    for (const Phase& phase : phases) shade(phase, is_first);
    std::string parts;
    for (const DrawnQuantity* drawn : quantities) {
      const std::size_t column = 2 + 2 * cycles::index_of(drawn->quantity);
      parts += fmt::format(
          "{0} $log using 1:{1}:{2} with filledcurves fillcolor rgb '{3}' notitle, "
          "$log using 1:{1} with lines linewidth 1 linecolor rgb '{4}' notitle, "
          "$log using 1:{2} with lines linewidth 1.2 linecolor rgb '{4}' title {5}",
          parts.empty() ? "plot" : ",", column, column + 1, drawn->faint, drawn->colour,
          quoted_for_gnuplot(say_(drawn->english)));
    }
    script_ += parts + '\n';
  }

  /// A round step of the upright axis with which no label touches the next.
  double step_of_labels(const std::vector<const DrawnQuantity*>& quantities) const {
    constexpr double units_of_a_label = 34.0;  // of the panel's height: its text and as much air
    constexpr double drawn_share = 0.65;       // of the panel: the rest is its labels and the names of the phases
    double least = quantities.front()->unit == "°C" ? std::numeric_limits<double>::infinity() : 0.0;
    double most = -std::numeric_limits<double>::infinity();
    for (const DataRow& row : rows_)
      for (const DrawnQuantity* drawn : quantities)
        if (const cycles::PlotExtent& extent = row.extents[cycles::index_of(drawn->quantity)]; !extent.is_empty()) {
          least = std::min(least, static_cast<double>(extent.least) - drawn->zero);
          most = std::max(most, static_cast<double>(extent.most) - drawn->zero);
        }
    const double finest = std::max(most - least, 1e-3) * units_of_a_label / (drawn_share * size_.panel_height);
    const double decade = std::pow(10.0, std::floor(std::log10(finest)));
    for (const double step : {1.0, 2.0, 5.0})
      if (step * decade >= finest) return step * decade;
    return 10.0 * decade;
  }

  std::string title_of(const std::vector<const DrawnQuantity*>& quantities) const {
    return quantities.size() == 1 ? say_(quantities.front()->english) : say_(OHMWRIGHT_TEXT("temperature"));
  }

  void shade(const Phase& phase, bool is_named) {
    const char* quote = start_ ? "'" : "";
    script_ += fmt::format(
        "set object rectangle from {0}{1:.3f}{0}, graph 0 to {0}{2:.3f}{0}, graph 1 fillcolor rgb '{3}' "
        "fillstyle solid noborder behind\n",
        quote, along(phase.from_second), along(phase.to_second), phase.colour);
    if (!is_named || phase.name.empty()) return;
    // In the middle of what is drawn of it, unless the name before stands there.
    constexpr double units_of_a_line = 17.0;
    constexpr double units_of_margins = 90.0;
    const double drawn = rows_.back().second - rows_.front().second;
    const double line = units_of_a_line / (static_cast<double>(size_.width) - units_of_margins) * drawn;
    const double middle =
        0.5 * (std::max(phase.from_second, rows_.front().second) + std::min(phase.to_second, rows_.back().second));
    if (middle < named_up_to_ + line) return;
    named_up_to_ = middle;
    script_ += fmt::format(
        "set label {0} at {1}{2:.3f}{1}, graph 0.98 right rotate by 90 front textcolor rgb "
        "'#333333' font 'sans-serif,12'\n",
        quoted_for_gnuplot(phase.name), quote, along(middle));
  }

  std::optional<double> start_;
  const Sentences& say_;
  PictureSize size_;
  std::vector<DataRow> rows_;
  std::vector<const DrawnQuantity*> temperatures_;
  std::vector<const DrawnQuantity*> loads_;
  double named_up_to_ = 0.0;  ///< where the last name of a phase stands [s]
  std::string script_;
};

constexpr std::string_view heating_colour = "#f7dccf";
constexpr std::string_view melting_colour = "#cfe4f5";
constexpr std::string_view dripping_colour = "#e2efdc";
constexpr std::string_view recovery_colour = "#ededed";

constexpr std::array defrost_phases{PhaseOfDefrost{OHMWRIGHT_TEXT("warming"), heating_colour, true},
                                    PhaseOfDefrost{OHMWRIGHT_TEXT("melting"), melting_colour},
                                    PhaseOfDefrost{OHMWRIGHT_TEXT("dripping"), dripping_colour},
                                    PhaseOfDefrost{OHMWRIGHT_TEXT("recovery"), recovery_colour}};

std::vector<Phase> phases_of(const Defrost& defrost, const Sentences& say) {
  std::vector<Phase> phases;
  const auto add = [&](double from, double to, std::string_view english, std::string_view colour) {
    if (to > from) phases.push_back({from, to, say(english), colour});
  };
  if (defrost.plateau_second > 0.0 && defrost.plateau_start_second) {
    const double melted = std::min(*defrost.plateau_start_second + defrost.plateau_second, defrost.end_second);
    add(defrost.start_second, *defrost.plateau_start_second, OHMWRIGHT_TEXT("warming"), heating_colour);
    add(*defrost.plateau_start_second, melted, OHMWRIGHT_TEXT("melting"), melting_colour);
    add(melted, defrost.end_second, OHMWRIGHT_TEXT("warming on"), heating_colour);
  } else {
    add(defrost.start_second, defrost.end_second, OHMWRIGHT_TEXT("heating"), heating_colour);
  }
  if (!defrost.drip_second) return phases;
  const double dripped = defrost.end_second + *defrost.drip_second;
  add(defrost.end_second, dripped, OHMWRIGHT_TEXT("dripping"), dripping_colour);
  if (defrost.recovery_second)
    add(dripped, dripped + *defrost.recovery_second, OHMWRIGHT_TEXT("recovery"), recovery_colour);
  return phases;
}

}  // namespace

std::span<const PhaseOfDefrost> phases_of_defrosts() { return defrost_phases; }

LogDrawing drawing_of(const LogReport& report, std::size_t most_columns) {
  const cycles::LogOutline& outline = report.analysis.outline;
  LogDrawing drawing{report.reader.start_second(), 0.0, outline.in_columns(most_columns), {}};
  if (drawing.columns.empty()) return drawing;
  drawing.column_second =
      std::ceil(static_cast<double>(outline.columns().size()) / static_cast<double>(drawing.columns.size())) *
      outline.column_second();
  for (const Defrost& defrost : report.analysis.defrosts)
    drawing.defrosts.push_back({defrost.start_second, defrost.end_second});
  return drawing;
}

std::string log_picture_script(const LogDrawing& drawing, const Sentences& say, PictureSize size) {
  if (drawing.columns.empty()) return {};
  const double each = drawing.column_second;
  std::vector<DataRow> rows;
  for (std::size_t i = 0; i < drawing.columns.size(); ++i)
    rows.push_back({(static_cast<double>(i) + 0.5) * each, drawing.columns[i], false});
  std::vector<Phase> phases;
  constexpr std::size_t most_numbered = 24;
  for (std::size_t i = 0; i < drawing.defrosts.size(); ++i) {
    const LogDrawing::Stretch& defrost = drawing.defrosts[i];
    phases.push_back({defrost.from_second, std::max(defrost.to_second, defrost.from_second + each),
                      drawing.defrosts.size() <= most_numbered ? std::to_string(i + 1) : std::string(),
                      heating_colour});
  }
  return LogScript(drawing.start_second, say, size, std::move(rows)).write(phases);
}

std::string log_picture_script(const LogReport& report, const Sentences& say, PictureSize size) {
  return log_picture_script(drawing_of(report, static_cast<std::size_t>(size.width)), say, size);
}

std::string defrost_picture_script(const LogReport& report, const cycles::DefrostTrace& trace, const Sentences& say,
                                   PictureSize size) {
  if (trace.points.size() < 2) return {};
  std::vector<DataRow> rows;
  for (std::size_t i = 0; i < trace.points.size(); ++i) {
    const cycles::PlotPoint& point = trace.points[i];
    DataRow row{point.second + 0.5 * point.width_second, {}, false};
    for (std::size_t q = 0; q < cycles::log_quantity_count; ++q)
      if (!std::isnan(point.value[q])) row.extents[q].take(point.value[q]);
    const bool is_last = i + 1 == trace.points.size();
    row.ends_line = !is_last && trace.points[i + 1].second - point.second - point.width_second >
                                    report.analysis.coverage.gap_limit_second;
    rows.push_back(row);
  }
  const std::vector<Phase> phases = phases_of(report.analysis.defrosts[trace.defrost], say);
  return LogScript(report.reader.start_second(), say, size, std::move(rows)).write(phases);
}

std::optional<std::string> drawn_picture(const std::string& script) {
  if (script.empty()) return std::nullopt;
  std::optional<std::string> svg = run_program({"gnuplot", "-"}, script);
  if (svg && svg->find("<svg") == std::string::npos) return std::nullopt;
  return svg;
}

}  // namespace ohmwright
