#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include <ohmwright/course/class_table.hpp>
#include <ohmwright/course/lab.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/run_program.hpp>

namespace ohmwright::course {

namespace {

std::string word_on(const LabMark& mark, const Sentences& say) {
  if (mark.is_a_slip && !mark.covers) return say(OHMWRIGHT_TEXT("far from the rest, left out of the spread"));
  if (!mark.covers) return say(OHMWRIGHT_TEXT("the doubt is too small"));
  return is_idle(mark) ? say(OHMWRIGHT_TEXT("covers, but says little")) : say(OHMWRIGHT_TEXT("covers"));
}

std::vector<std::vector<std::string>> rows_of_lab(std::span<const LabMark> marks, const Sentences& say) {
  std::vector<std::vector<std::string>> rows{{say(OHMWRIGHT_TEXT("student")), say(OHMWRIGHT_TEXT("part")),
                                              say(OHMWRIGHT_TEXT("reading")), say(OHMWRIGHT_TEXT("reference")), "E_n",
                                              say(OHMWRIGHT_TEXT("the doubt stated"))}};
  for (const LabMark& mark : marks)
    rows.push_back({mark.reading->student, mark.part->tag, say.stated(mark.reading->shown),
                    say.stated(mark.part->reference), fmt::format("{:.2f}", mark.e_n), word_on(mark, say)});
  return rows;
}

std::string explanation(const Sentences& say) {
  return say(OHMWRIGHT_TEXT(
      "E_n is the difference from the reference over the root of both doubts squared and added: up to 1 "
      "the doubt that was stated covers the difference (ISO/IEC 17043). State a doubt that would hold the "
      "true value in 95 of 100 readings."));
}

std::vector<std::vector<std::string>> rows_of_totals(std::span<const LabMark> marks, const Sentences& say) {
  std::vector<std::vector<std::string>> rows{
      {say(OHMWRIGHT_TEXT("student")), say(OHMWRIGHT_TEXT("readings")), say(OHMWRIGHT_TEXT("total"))}};
  for (const LabTotal& total : lab_totals(marks))
    rows.push_back({total.student, std::to_string(total.readings), fmt::format("{:.0f}", 100.0 * total.share)});
  return rows;
}

/// Mean of the class and standard deviation, in the unit of the reference.
std::vector<std::vector<std::string>> rows_of_spread(const Lab& lab, std::span<const LabMark> marks,
                                                     const Sentences& say) {
  std::vector<std::vector<std::string>> rows{
      {say(OHMWRIGHT_TEXT("part")), say(OHMWRIGHT_TEXT("readings")), say(OHMWRIGHT_TEXT("mean of the class")),
       say(OHMWRIGHT_TEXT("standard deviation")), say(OHMWRIGHT_TEXT("reference"))}};
  for (const LabSpread& spread : lab_spreads(lab, marks)) {
    const Dimension dimension = spread.part->reference.value.dimension();
    // A deviation of temperatures is a difference: kelvin, whatever the readings are in.
    const Dimension of_deviation = dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
    std::string deviation = "-";
    if (spread.deviation) deviation = say.quantity(AnyQuantity(of_deviation, *spread.deviation), 2);
    if (spread.deviation == 0.0 && of_deviation == dimension)  // nothing has no prefix of its own
      deviation = "0 " + say.unit_for(AnyQuantity(dimension, spread.mean)).symbol(Spelling::screen);
    rows.push_back({spread.part->tag, std::to_string(spread.readings),
                    say.quantity(AnyQuantity(dimension, spread.mean)), deviation, say.stated(spread.part->reference)});
  }
  return rows;
}

std::string how_totals_are_made(const Sentences& say) {
  return say(OHMWRIGHT_TEXT(
      "Total: 100 for a doubt that covers, 50 for one that covers and says little, 0 for one that is too "
      "small; the mean of a student's readings."));
}

/// "line 4: what is wrong"
std::vector<std::string> refused_lines(std::span<const Problem> refused, const Sentences& say) {
  std::vector<std::string> lines;
  for (const Problem& problem : refused)
    lines.push_back(say(OHMWRIGHT_TEXT("line {number}: {trouble}"),
                        {{"number", std::to_string(problem.line)}, {"trouble", problem.text}}));
  return lines;
}

/// The ends of an axis that shows all of them, with a little room [SI].
std::pair<double, double> reach_of_class(const LabPart& part, std::span<const LabMark* const> marks) {
  double low = part.reference.value.value_in_si();
  double high = low;
  const auto take_in = [&](const StatedValue& value) {
    const double half_width = value.half_width.value_or(0.0);
    low = std::min(low, value.value.value_in_si() - half_width);
    high = std::max(high, value.value.value_in_si() + half_width);
  };
  take_in(part.reference);
  for (const std::optional<StatedValue>& limit : {part.lower, part.upper})
    if (limit) take_in(*limit);
  for (const LabMark* mark : marks) take_in(mark->reading->shown);
  constexpr double room = 0.05;
  const double margin = high > low ? room * (high - low) : room * std::abs(low) + 1e-12;
  return {low - margin, high + margin};
}

/// The class's readings of one part in their order, a row for each student so that every name is read however many they
/// are; across the rows the reference and the limits.
std::string lab_script(const LabPart& part, std::span<const LabMark> marks, const Sentences& say) {
  constexpr int of_a_row = 22;
  constexpr double of_the_key = 88.0;  // and what lies around the rows, all from the lower edge on
  constexpr double below_the_rows = 142.0;
  constexpr double around = 215.0;
  constexpr int columns_of_a_name = 22;
  const Unit unit = say.unit_for(part.reference.value);
  const auto number = [&](double si) { return fmt::format("{:.9g}", unit.from_si(si)); };
  std::vector<const LabMark*> drawn;
  for (const LabMark& mark : marks)
    if (mark.part == &part && !mark.is_a_slip) drawn.push_back(&mark);
  const auto rows = static_cast<int>(drawn.size());
  const double height = around + of_a_row * rows;
  std::string script =
      fmt::format("set terminal svg size 480,{} noenhanced background rgb 'white' font 'sans-serif,14'\n",
                  static_cast<int>(height));
  script += "set encoding utf8\n";
  script += thin_axes;
  // The key from the picture's left edge on, below the axis: from the plot's edge its words would run out of it.
  script += fmt::format(
      "set key at screen 0.05, screen {:.4f} left top Left reverse maxcols 1\nset bmargin at screen {:.4f}\n",
      of_the_key / height, below_the_rows / height);
  std::string names;
  std::string data;
  int row = 0;
  for (const LabMark* mark : drawn) {
    const std::vector<std::string> name = lines_of_width(mark->reading->student, columns_of_a_name);
    const std::string shown = name.empty() ? "" : name.size() > 1 ? name.front() + " …" : name.front();
    names += fmt::format("{}{} {}", names.empty() ? "" : ", ", quoted_for_gnuplot(shown), ++row);
    data += fmt::format("{} {} {}\n", number(mark->reading->shown.value.value_in_si()), row,
                        number(mark->reading->shown.half_width.value_or(0.0)));
  }
  const auto [low, high] = reach_of_class(part, drawn);
  script += fmt::format("set yrange [{}.6:0.4]\nset ytics ({})\nset xrange [{}:{}]\n", rows, names, number(low),
                        number(high));
  script += "set title " + wrapped_for_gnuplot(part.tag + " " + part.title, 46) + "\n";
  script += "set xlabel " + quoted_for_gnuplot(unit.symbol(Spelling::screen)) + "\n$marks << EOD\n" + data + "EOD\n";
  constexpr std::string_view of_reference = "linewidth 2 linecolor rgb '#222222'";
  constexpr std::string_view of_limits = "dashtype 2 linewidth 2 linecolor rgb '#a3201a'";
  const auto across = [&](const StatedValue& value, std::string_view look) {
    script += fmt::format("set arrow from {0}, graph 0 to {0}, graph 1 nohead back {1}\n",
                          number(value.value.value_in_si()), look);
  };
  across(part.reference, of_reference);
  bool has_limits = false;
  for (const std::optional<StatedValue>& limit : {part.lower, part.upper})
    if (limit) {
      across(*limit, of_limits);
      has_limits = true;
    }
  script +=
      "plot $marks using 1:2:3 with xerrorbars linewidth 2 pointtype 7 pointsize 0.7 linecolor rgb '#2f5d8a' title " +
      quoted_for_gnuplot(say(OHMWRIGHT_TEXT("readings with the doubt stated")));
  script += fmt::format(", keyentry with lines {} title ", of_reference) +
            quoted_for_gnuplot(say(OHMWRIGHT_TEXT("the reference")));
  if (has_limits)
    script += fmt::format(", keyentry with lines {} title ", of_limits) +
              quoted_for_gnuplot(say(OHMWRIGHT_TEXT("a limit of good parts")));
  return script + "\n";
}

}  // namespace

std::string lab_page(const Lab& lab, std::span<const LabMark> marks, std::span<const Problem> refused,
                     const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.block(lab.title);
  page.blank_line();
  page.table(rows_of_lab(marks, say));
  page.blank_line();
  page.block(explanation(say));
  page.heading(say(OHMWRIGHT_TEXT("Totals")));
  page.table(rows_of_totals(marks, say));
  page.block(how_totals_are_made(say));
  page.heading(say(OHMWRIGHT_TEXT("The class's spread")));
  page.table(rows_of_spread(lab, marks, say));
  page.section(say(OHMWRIGHT_TEXT("Lines without marks")), refused_lines(refused, say));
  return page.take();
}

std::string lab_csv(std::span<const LabMark> marks, std::span<const Problem> refused) {
  std::string csv = csv_row({"student", "tag", "reading_si", "doubt_si", "reference_si", "reference_doubt_si", "e_n",
                             "covers", "mark", "conditions", "refused"});
  for (const LabMark& mark : marks)
    csv +=
        csv_row({mark.reading->student, mark.part->tag, fmt::format("{:.9g}", mark.reading->shown.value.value_in_si()),
                 fmt::format("{:.9g}", mark.reading->shown.half_width.value_or(0.0)),
                 fmt::format("{:.9g}", mark.part->reference.value.value_in_si()),
                 fmt::format("{:.9g}", mark.part->reference.half_width.value_or(0.0)), fmt::format("{:.3f}", mark.e_n),
                 mark.covers ? "yes" : "no", fmt::format("{:.1f}", share_of(mark)), mark.reading->conditions, ""});
  for (const Problem& problem : refused)
    csv += csv_row({"", "", "", "", "", "", "", "", "", "", fmt::format("line {}: {}", problem.line, problem.text)});
  return csv;
}

std::string lab_html(const Lab& lab, std::span<const LabMark> marks, std::span<const Problem> refused,
                     const Sentences& say, std::string_view made_with) {
  std::string body = "<h1>" + html_text(lab.title) + "</h1>\n";
  bool is_drawn = true;
  for (const LabPart& part : lab.parts) {
    const std::optional<std::string> svg = ohmwright::run_program({"gnuplot", "-"}, lab_script(part, marks, say));
    is_drawn = is_drawn && svg && svg->find("<svg") != std::string::npos;
    if (is_drawn)
      body += html_picture(*svg, say(OHMWRIGHT_TEXT("readings of {part}"), {{"part", part.tag}}), PictureFit::shrinks);
  }
  if (!is_drawn)
    body += "<p>" + html_text(say(OHMWRIGHT_TEXT("No pictures: the program gnuplot is not installed."))) + "</p>\n";
  body += html_table(rows_of_lab(marks, say)) + "<p>" + html_text(explanation(say)) + "</p>\n";
  body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Totals"))) + "</h2>\n" + html_table(rows_of_totals(marks, say)) +
          "<p>" + html_text(how_totals_are_made(say)) + "</p>\n<h2>" +
          html_text(say(OHMWRIGHT_TEXT("The class's spread"))) + "</h2>\n" +
          html_table(rows_of_spread(lab, marks, say)) +
          html_section(say(OHMWRIGHT_TEXT("Lines without marks")), refused_lines(refused, say));
  return html_page(lab.title, body, made_with);
}

}  // namespace ohmwright::course
