#include <algorithm>
#include <cstdint>
#include <optional>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/explain.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/fault_picture.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "course/actions.hpp"
#include "course/files.hpp"
#include "course/kind.hpp"
#include "exit_codes.hpp"
#include "kind_files.hpp"
#include "made_with.hpp"
#include "part_charts.hpp"

namespace ohmwright::cli {

namespace {

/// The kind's first chart of that part over its whole usual span; nothing where it has none, or nothing is known.
std::optional<Chart> whole_chart(const LoadedKind& kind, const RatedPart& part, std::size_t points) {
  const Descriptor& descriptor = kind.descriptor();
  if (descriptor.charts.empty() || part.name.empty()) return std::nullopt;
  const ChartAxis& axis = descriptor.charts.front();
  Chart chart = chart_of(kind, part, {0, axis.from.value_in_si(), axis.to.value_in_si(), points, {}});
  if (chart.lines.empty()) return std::nullopt;
  return chart;
}

/// The situation of a part that lies in a place of that temperature.
Situation lying_at(const Descriptor& descriptor, AnyQuantity temperature) {
  std::vector<ConditionValue> values;
  for (std::uint16_t i = 0; i < descriptor.conditions.size(); ++i)
    if (descriptor.conditions[i].dimension == Dimension::temperature) values.push_back({i, temperature.value_in_si()});
  return {values};
}

/// What a good one reads within those limits; `at` where it hangs on how warm it is.
std::string good_reading(const Limits& limits, FindingArguments arguments, std::optional<AnyQuantity> at,
                         const Sentences& say) {
  if (limits.lower) arguments.push_back({"from", *limits.lower});
  if (limits.upper) arguments.push_back({"to", *limits.upper});
  if (at) arguments.push_back({"at", *at});
  if (limits.lower && limits.upper)
    return at ? say(OHMWRIGHT_TEXT("{measurand}, at {at}: {from} to {to}"), view(arguments))
              : say(OHMWRIGHT_TEXT("{measurand}: {from} to {to}"), view(arguments));
  if (limits.upper)
    return at ? say(OHMWRIGHT_TEXT("{measurand}, at {at}: {to} at most"), view(arguments))
              : say(OHMWRIGHT_TEXT("{measurand}: {to} at most"), view(arguments));
  return at ? say(OHMWRIGHT_TEXT("{measurand}, at {at}: {from} at least"), view(arguments))
            : say(OHMWRIGHT_TEXT("{measurand}: {from} at least"), view(arguments));
}

/// What a good one of these ratings reads, wherever it is or, where that matters, as warm as the table.
std::vector<std::string> good_readings(const LoadedKind& kind, const RatedPart& part, AnyQuantity table,
                                       const Sentences& say) {
  const Descriptor& descriptor = kind.descriptor();
  std::vector<std::string> lines;
  if (part.name.empty()) return lines;
  const auto expected = [&](std::uint16_t measurand, const Situation& situation) {
    return kind.call("what it reads", [&] { return part.part->expect(measurand, situation); });
  };
  for (std::uint16_t i = 0; i < descriptor.measurands.size(); ++i) {
    std::optional<AnyQuantity> at;
    std::optional<Expectation> good = expected(i, Situation{});
    if (!good) {
      at = table;
      good = expected(i, lying_at(descriptor, table));
    }
    if (!good || good->share_closed || (!good->limits.lower && !good->limits.upper)) continue;
    lines.push_back(good_reading(
        good->limits, {{"measurand", say.in_domain(descriptor.text_domain, descriptor.measurands[i].title)}}, at, say));
  }
  return lines;
}

std::string explanation_page(const course::Bench& bench, const std::vector<course::FaultTable>& tables,
                             const std::optional<Chart>& chart, const std::optional<Chart>& dense,
                             const std::vector<std::string>& good, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.section(say(OHMWRIGHT_TEXT("What a good one reads")), good);
  for (const course::FaultTable& table : tables) {
    page.heading(table.title);
    page.table(table.rows);
  }
  page.section(say(OHMWRIGHT_TEXT("What is seen of it, and how often")), course::fault_symptoms(bench, say));
  return (chart ? chart_page(*chart, *dense, say, style) : std::string()) + page.take();
}

OhmsReach reach_of(const std::optional<course::ShownSpan>& span) {
  OhmsReach reach;
  if (!span) return reach;
  reach.may_be_open = span->may_be_open;
  if (!span->ohms) return reach;
  reach.low = span->ohms->low;
  reach.high = span->ohms->high;
  return reach;
}

std::vector<OhmsReach> reaches_of(const std::vector<std::optional<course::ShownSpan>>& spans) {
  std::vector<OhmsReach> reaches;
  for (const std::optional<course::ShownSpan>& span : spans) reaches.push_back(reach_of(span));
  return reaches;
}

/// The temperatures of the kind's chart, where it has one over temperatures [K].
std::vector<double> temperatures_of(const std::optional<Chart>& chart) {
  constexpr int steps = 60;
  std::vector<double> kelvin;
  if (!chart || chart->axis.from.dimension() != Dimension::temperature) return kelvin;
  const double from = chart->axis.from.value_in_si();
  const double to = chart->axis.to.value_in_si();
  for (int i = 0; i <= steps; ++i) kelvin.push_back(from + (to - from) * i / steps);
  return kelvin;
}

/// What the picture shows, for who does not see it.
std::string picture_in_words(const course::FaultTable& table, std::size_t row, const Sentences& say) {
  constexpr std::size_t good = 1;
  std::string words = table.rows[row].front();
  for (std::size_t column = 1; column < table.rows[row].size(); ++column)
    words += "; " + say(OHMWRIGHT_TEXT("{place}: {shown}, a good one {good}"), {{"place", table.rows.front()[column]},
                                                                                {"shown", table.rows[row][column]},
                                                                                {"good", table.rows[good][column]}});
  return words;
}

/// Without an axis: a row as found, and one for each set-up or state in which anything is read otherwise.
FaultPicture picture_in_rows(const course::FaultTable& table, std::size_t row) {
  constexpr std::size_t as_found = 1;
  FaultPicture picture;
  for (std::size_t column = as_found; column < table.rows.front().size(); ++column) {
    const bool says_more = std::any_of(table.rows.begin() + 1, table.rows.end(),
                                       [&](const auto& one) { return one[column] != one[as_found]; });
    if (column != as_found && !says_more) continue;
    picture.rows.push_back(table.rows.front()[column]);
    picture.good.push_back(reach_of(table.spans.front()[column - 1]));
    picture.faulty.push_back(reach_of(table.spans[row - 1][column - 1]));
  }
  return picture;
}

/// A picture for every fault that changes what is read between these terminals.
std::vector<CaptionedPicture> fault_pictures(const course::Bench& bench, const Meter& meter,
                                             const course::FaultTable& table, const std::vector<double>& kelvin,
                                             const Sentences& say) {
  constexpr std::size_t good = 1;
  const auto same_cells = [&](std::size_t row) {
    return std::equal(table.rows[row].begin() + 1, table.rows[row].end(), table.rows[good].begin() + 1);
  };
  const auto spans = course::spans_by_temperature(bench, meter, table.test_point, kelvin);
  std::vector<CaptionedPicture> pictures;
  if (!table.spans.front().front()) return pictures;  // of ratings that are not known there is nothing to compare with
  for (std::size_t row = good + 1; row < table.rows.size(); ++row) {
    if (same_cells(row)) continue;
    const FaultPicture picture = kelvin.empty()
                                     ? picture_in_rows(table, row)
                                     : FaultPicture{kelvin, {}, reaches_of(spans.front()), reaches_of(spans[row - 1])};
    if (std::optional<std::string> svg = drawn_fault_picture(picture, say))
      pictures.push_back({table.rows[row].front(), std::move(*svg), picture_in_words(table, row, say)});
  }
  return pictures;
}

std::string explanation_html(const course::Bench& bench, const Meter& meter,
                             const std::vector<course::FaultTable>& tables, const std::optional<Chart>& dense,
                             const std::vector<std::string>& good, const std::string& title, const std::string& hint,
                             const Sentences& say) {
  std::string body = "<h1>" + html_text(title) + "</h1>\n";
  if (!hint.empty()) body += "<p>" + html_text(hint) + "</p>\n";
  if (dense)
    if (const std::optional<std::string> svg = chart_picture(*dense, say))
      body += html_picture(*svg, say(OHMWRIGHT_TEXT("what a good part reads, with its limits")), PictureFit::shrinks);
  body += html_section(say(OHMWRIGHT_TEXT("What a good one reads")), good);
  const std::vector<double> kelvin = temperatures_of(dense);
  for (const course::FaultTable& table : tables) {
    body += "<h2>" + html_text(table.title) + "</h2>\n" + html_stacking_table(table.rows);
    const std::vector<CaptionedPicture> pictures = fault_pictures(bench, meter, table, kelvin, say);
    if (!pictures.empty())
      body += "<p>" +
              html_text(say(OHMWRIGHT_TEXT("Plain is what good ones read, striped what the fault makes of it; what has "
                                           "no picture reads as a good one does."))) +
              "</p>\n" + html_small_pictures(pictures);
  }
  body += html_section(say(OHMWRIGHT_TEXT("What is seen of it, and how often")), course::fault_symptoms(bench, say));
  return html_page(title, body, made_with());
}

}  // namespace

int course_explain(const Arguments& arguments, Environment& environment) {
  const std::string& name = course_operand(arguments, 1, "KIND");
  const std::string ratings = arguments.value("--ratings");
  const LoadedKind& kind = open_kind(environment, name);
  const RatedPart part = rated_part(kind, ratings);
  const std::string text = appliance_text_for(environment, name, ratings);
  const Appliance appliance =
      read_appliance(parse_document_to_check(text, name, course::course_limits()), environment.registry);
  const course::Bench bench = course::table_of(appliance, 0);
  const Sentences say{UnitPreferences{}};
  const Meter meter = chosen_meter(environment, arguments.value("--meter"));
  const std::vector<course::FaultTable> tables = course::fault_tables(bench, meter, say);
  constexpr std::size_t rows = 21;
  const std::optional<Chart> chart = whole_chart(kind, part, rows);
  const std::optional<Chart> dense = whole_chart(kind, part, points_of_a_picture);
  const std::vector<std::string> good = good_readings(kind, part, bench.appliance.zones.front().temperature.value, say);
  const std::string names = ratings.empty() ? listed(names_in_folder(kind.ratings_folder().string())) : std::string();
  const std::string hint =
      names.empty() ? names
                    : say(OHMWRIGHT_TEXT("Without its ratings a part may read nearly anything: name --ratings; there "
                                         "are: {names}"),
                          {{"names", names}});
  const std::string title = say.in_domain(kind.descriptor().text_domain, kind.descriptor().title);
  deliver_beside_the_class(arguments.value("--format", "text") == "html"
                               ? explanation_html(bench, meter, tables, dense, good, title, hint, say)
                               : paragraph(hint, environment.page.width) +
                                     explanation_page(bench, tables, chart, dense, good, say, environment.page),
                           arguments, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
