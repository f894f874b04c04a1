#include <algorithm>
#include <cmath>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/chart.hpp>
#include <ohmwright/safety/live_readings.hpp>

#include "circumstances.hpp"
#include "exit_codes.hpp"
#include "given_conditions.hpp"
#include "instruments.hpp"
#include "kind_files.hpp"
#include "made_with.hpp"
#include "output.hpp"
#include "part_charts.hpp"
#include "reading_words.hpp"
#include "typed_readings.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::size_t most_rows = 500;
constexpr std::size_t usual_rows = 20;

/// What a chart is made from.
struct ChartCall {
  const LoadedKind& kind;
  RatedPart part;
  ChartRequest request;
  double step = 0.0;
  bool begins_as_typed = false;  ///< the table; else at a round value
  std::vector<ChartMark> marks;
  UnitPreferences units;
};

/// Whether the part says anything along that axis of its kind.
bool says_anything_along(std::size_t axis, const ChartCall& call) {
  const ChartAxis& whole = call.kind.descriptor().charts[axis];
  ChartRequest request = call.request;
  request.axis = axis;
  request.from = whole.from.value_in_si();
  request.to = whole.to.value_in_si();
  return !chart_of(call.kind, call.part, request).lines.empty();
}

/// The axis asked for, else the first that these ratings have something to say of.
std::size_t chosen_axis(const Arguments& arguments, const ChartCall& call) {
  const Descriptor& descriptor = call.kind.descriptor();
  if (descriptor.charts.empty()) throw InputError(with_article(descriptor.id) + " has no chart to draw");
  if (!arguments.has("--of")) {
    for (std::size_t axis = 0; axis < descriptor.charts.size(); ++axis)
      if (says_anything_along(axis, call)) return axis;
    return 0;
  }
  const std::string name = arguments.value("--of");
  std::string list;
  for (std::size_t i = 0; i < descriptor.charts.size(); ++i) {
    if (descriptor.charts[i].measurand == name) return i;
    list += (list.empty() ? "" : ", ") + std::string(descriptor.charts[i].measurand);
  }
  throw InputError(with_article(descriptor.id) + " has no chart of " + ohmwright::quoted(name) + "; it has: " + list);
}

/// The kind's shipped classes of which that axis has something to say.
std::vector<std::string> classes_with_axis(std::size_t axis, const ChartCall& call) {
  std::vector<std::string> with;
  for (const std::string& name : names_in_folder(call.kind.ratings_folder())) {
    ChartCall other = call;
    other.part = rated_part(call.kind, name);
    if (says_anything_along(axis, other)) with.push_back(name);
  }
  return with;
}

/// Where the ratings say nothing along the axis: what else of them can be drawn, or of which classes this can, and how
/// a reading is judged without a chart.
std::string nothing_to_draw(const ChartCall& call) {
  const Descriptor& descriptor = call.kind.descriptor();
  const ChartAxis& axis = descriptor.charts[call.request.axis];
  const ConditionDescriptor& along = descriptor.conditions[index_of(descriptor.conditions, axis.condition)];
  std::string text = "these ratings say nothing of " + std::string(axis.measurand) + " along " +
                     std::string(axis.condition) + " (--" + std::string(along.option) + ")";
  std::vector<std::string> others;
  for (std::size_t i = 0; i < descriptor.charts.size(); ++i)
    if (i != call.request.axis && says_anything_along(i, call)) others.emplace_back(descriptor.charts[i].measurand);
  if (!others.empty()) return text + "; they can be charted with --of: " + listed(others);
  const std::vector<std::string> classes = classes_with_axis(call.request.axis, call);
  if (classes.empty()) return text + "; conditions that it needs are typed before the readings";
  const std::string id(descriptor.id);
  return text + ", and a " + id + " of these ratings has nothing else to chart; classes that have: " + listed(classes) +
         " (--ratings NAME). Without a chart a reading is held against its limits by ohmwright check " + id +
         " READING --ratings NAME";
}

/// Whether any of the chart's lines says something at its point `i`.
bool says_anything_at(const Chart& chart, std::size_t i) {
  return std::any_of(chart.lines.begin(), chart.lines.end(),
                     [i](const ChartLine& line) { return line.points[i].expected.has_value(); });
}

/// The usual span of a kind is wide enough for all its parts: only where this one says something is worth a row.
void leave_out_silent_ends(ChartCall& call, double step) {
  const double start = call.request.from;
  call.request.points = static_cast<std::size_t>(std::floor((call.request.to - start) / step + 1e-9)) + 1;
  const Chart probe = chart_of(call.kind, call.part, call.request);
  if (probe.lines.empty()) return;
  std::size_t first = 0;
  std::size_t last = call.request.points - 1;
  while (first < last && !says_anything_at(probe, first)) ++first;
  while (last > first && !says_anything_at(probe, last)) --last;
  if (last - first < 2) return;
  call.request.to = start + step * static_cast<double>(last);
  call.request.from = start + step * static_cast<double>(first);
}

/// A step that is round in the unit that is read [SI].
double usual_step(const ChartCall& call, Dimension dimension) {
  const Unit unit = call.units.unit_for({dimension, call.request.to}).of_differences();
  return unit.to_si(round_step(unit.from_si(call.request.to - call.request.from), usual_rows));
}

/// The first multiple of the step, in the unit that is read, within the span: 32 °F and 0 °C are rows of a table [SI].
double round_start(const ChartCall& call) {
  const Descriptor& descriptor = call.kind.descriptor();
  const std::uint16_t condition = index_of(descriptor.conditions, descriptor.charts[call.request.axis].condition);
  const Unit unit = call.units.unit_for({descriptor.conditions[condition].dimension, call.request.to});
  const double step = unit.of_differences().from_si(call.step);
  constexpr double rounding = 1e-9;  // what units leave of a whole number
  const double start = unit.to_si(step * std::ceil(unit.from_si(call.request.from) / step - rounding));
  return start + call.step < call.request.to ? start : call.request.from;
}

void choose_span(const Arguments& arguments, ChartCall& call) {
  const Descriptor& descriptor = call.kind.descriptor();
  const ChartAxis& axis = descriptor.charts[call.request.axis];
  const std::uint16_t condition = index_of(descriptor.conditions, axis.condition);
  const AxisSpan usual = usual_span(call.kind, call.part, call.request, call.marks);
  const auto end = [&](const char* option, double otherwise) {
    return arguments.has(option)
               ? condition_value(descriptor, condition, arguments.value(option), call.units).value_in_si()
               : otherwise;
  };
  call.request.from = end("--from", usual.from);
  call.request.to = end("--to", usual.to);
  if (!(call.request.to > call.request.from)) throw InputError("--from must lie below --to");
  const Dimension dimension = descriptor.conditions[condition].dimension;
  if (!arguments.has("--from") && !arguments.has("--to")) leave_out_silent_ends(call, usual_step(call, dimension));
  call.step = usual_step(call, dimension);
  if (arguments.has("--step")) {
    const Dimension of_steps = Unit::si(dimension).of_differences().dimension();
    call.step = parse_stated_value(arguments.value("--step"), of_steps).value.value_in_si();
  }
  if (!(call.step > 0.0) || (call.request.to - call.request.from) / call.step > static_cast<double>(most_rows))
    throw InputError("--step must be positive and give at most " + std::to_string(most_rows) + " rows");
}

/// A reading that says nothing of the axis, or none of its measurand.
std::string unmarked_reading(const Descriptor& descriptor, const ChartAxis& axis) {
  const ConditionDescriptor& condition = descriptor.conditions[index_of(descriptor.conditions, axis.condition)];
  const std::string option(condition.option);
  return "this chart marks a " + std::string(axis.measurand) + " where its --" + option +
         " is said; type a number and that behind each reading (ohmwright chart KIND READING --" + option +
         " VALUE), or choose another chart with --of";
}

/// What is typed after the kind: readings to mark, and conditions that stay as they are along the axis.
void add_words(const Arguments& arguments, const Environment& environment, ChartCall& call) {
  const Descriptor& descriptor = call.kind.descriptor();
  const TypedWords words =
      sort_reading_words(std::span(arguments.operands).subspan(1), descriptor, arguments.option_names);
  Reading bearer{.measurand = {}, .observed = OverRange{}};  // takes the conditions that are said for all
  apply_to_all(words.said_for_all, descriptor, call.units, {&bearer, 1});
  for (const Condition& condition : bearer.conditions)
    call.request.conditions.push_back(
        {index_of(descriptor.conditions, condition.id), condition.value.value.value_in_si()});
  Instruments instruments(arguments, environment);
  std::vector<Reading> readings = make_readings(words.readings, descriptor, instruments.meters().named(""), call.units);
  refuse_ohms_on_live_parts(readings, descriptor);
  instruments.choose(readings, descriptor);
  const ChartAxis& axis = descriptor.charts[call.request.axis];
  call.marks = marks_on_axis(call.kind, call.part, call.request, Evidence(descriptor, readings, instruments.meters()));
  if (call.marks.size() < readings.size()) throw InputError(unmarked_reading(descriptor, axis));
}

/// Adds the point at which ice melts to a table in °F, whose round values pass it by: it is where a thermometer is
/// right.
void add_ice_point(const ChartCall& call, Chart& table) {
  const double ice = Temperature::from_celsius(0.0).kelvin();
  ChartRequest request = call.request;
  request.from = ice;
  request.to = ice + call.step;
  request.points = 2;
  const Chart at_ice = chart_of(call.kind, call.part, request);
  for (ChartLine& line : table.lines) {
    const auto same = std::find_if(at_ice.lines.begin(), at_ice.lines.end(),
                                   [&line](const ChartLine& other) { return other.state == line.state; });
    const auto after = std::find_if(line.points.begin(), line.points.end(),
                                    [ice](const ChartPoint& point) { return point.condition > ice - 0.01; });
    if (same == at_ice.lines.end() || after == line.points.begin() || after == line.points.end()) continue;
    if (after->condition > ice + 0.01) line.points.insert(after, same->points.front());
  }
}

/// Whether the table's rows were left to us and are read in degrees Fahrenheit.
bool rows_miss_the_ice_point(const Arguments& arguments, const ChartCall& call, const Chart& table) {
  const Descriptor& descriptor = table.descriptor;
  const Dimension dimension = descriptor.conditions[index_of(descriptor.conditions, table.axis.condition)].dimension;
  return dimension == Dimension::temperature && !call.begins_as_typed && !arguments.has("--step") &&
         call.units.unit_for({dimension, call.request.to}) == Unit::named("degF", dimension);
}

/// The rows of the table: round values from the first to the last.
Chart table_chart(const ChartCall& call) {
  ChartRequest request = call.request;
  if (!call.begins_as_typed) request.from = round_start(call);
  const double span = request.to - request.from;
  request.points = static_cast<std::size_t>(std::floor(span / call.step + 1e-9)) + 1;
  if (request.points < 2) request.points = 2;
  request.to = request.from + call.step * static_cast<double>(request.points - 1);
  Chart chart = chart_of(call.kind, call.part, request);
  chart.marks = call.marks;
  return chart;
}

Chart picture_chart(const ChartCall& call) {
  ChartRequest request = call.request;
  request.points = points_of_a_picture;
  Chart chart = chart_of(call.kind, call.part, request);
  chart.marks = call.marks;
  return chart;
}

int run_chart(const Arguments& arguments, Environment& environment) {
  const LoadedKind& kind = kind_typed(environment, arguments.operands);
  if (!arguments.has("--ratings"))
    throw InputError("a chart needs the part's ratings: --ratings NAME or a file (see: ohmwright ratings)");
  ChartCall call{kind, rated_part(kind, arguments.value("--ratings")), {}, 0.0, arguments.has("--from"), {}, {}};
  call.request.axis = chosen_axis(arguments, call);
  add_words(arguments, environment, call);
  choose_span(arguments, call);
  Chart table = table_chart(call);
  if (rows_miss_the_ice_point(arguments, call, table)) add_ice_point(call, table);
  if (table.lines.empty()) throw InputError(nothing_to_draw(call));
  const Sentences say(call.units);
  const std::string format = arguments.value("--format", "text");
  if (format == "json")
    deliver(chart_json(table), arguments, environment);
  else if (format == "csv")
    deliver(chart_csv(table, say), arguments, environment);
  else if (format == "html")
    deliver(chart_html(table, picture_chart(call), say, made_with()), arguments, environment);
  else
    deliver(chart_page(table, picture_chart(call), say, environment.page), arguments, environment);
  return exit_done;
}

}  // namespace

VerbSpec chart_verb() {
  return {
      .name = "chart",
      .summary =
          OHMWRIGHT_TEXT("What a good part reads, with its limits, along temperature or what else it depends on"),
      .example = "ohmwright chart thermistor 11.0k@23C --ratings ntc-10k-b3977 --to 30C",
      .operands = {{"KIND", OHMWRIGHT_TEXT("What the part is: a kind or what people call it (see: ohmwright kinds)"),
                    true, false},
                   {"READING", OHMWRIGHT_TEXT("A reading to mark on the chart, with its condition: 11.0k@23C"), false,
                    true}},
      .options =
          {
              {"--ratings", "NAME|FILE", OHMWRIGHT_TEXT("What the part should be: a shipped class or a file"), {}},
              {"--of", "NAME", OHMWRIGHT_TEXT("Which of the kind's readings to draw (default: its first chart)"), {}},
              {"--from", "VALUE", OHMWRIGHT_TEXT("Where the chart begins"), {}},
              {"--to", "VALUE", OHMWRIGHT_TEXT("Where it ends"), {}},
              {"--step", "VALUE", OHMWRIGHT_TEXT("Distance between the rows of the table"), {}},
              {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("The meter of the marked readings"), {}, true},
              {"--format",
               "FORMAT",
               OHMWRIGHT_TEXT("text (default), json, csv or html"),
               {"text", "json", "csv", "html"}},
              {"--out", "FILE", OHMWRIGHT_TEXT("Write there instead of the terminal"), {}},
          },
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_chart,
  };
}

}  // namespace ohmwright::cli
