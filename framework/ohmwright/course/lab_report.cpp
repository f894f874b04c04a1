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

/// A doubt wider than this many times the largest difference of the class covers by being idle.
constexpr double idle_doubt = 5.0;

std::string word_on(const LabMark& mark, const Sentences& say) {
  if (!mark.covers) return say(OHMWRIGHT_TEXT("the doubt is too small"));
  return mark.doubt_ratio > idle_doubt ? say(OHMWRIGHT_TEXT("covers, but says little")) : say(OHMWRIGHT_TEXT("covers"));
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
  return say(
      OHMWRIGHT_TEXT("E_n is the difference from the reference over the root of both doubts squared and added: up to 1 "
                     "the doubt that was stated covers the difference (ISO/IEC 17043)."));
}

/// The class's readings of one part in their order, the reference with its doubt, the limits.
std::string lab_script(const LabPart& part, std::span<const LabMark> marks, const Sentences& say) {
  const Unit unit = say.unit_for(part.reference.value);
  const auto number = [&](double si) { return fmt::format("{:.9g}", unit.from_si(si)); };
  std::string script = "set terminal svg size 480,320 noenhanced background rgb 'white' font 'sans-serif,14'\n";
  script += "set encoding utf8\n";
  script += thin_axes;
  script += "unset xtics\nset offsets 0.7, 0.7, 0, 0\n";
  script += "set title " + quoted_for_gnuplot(part.tag + " " + part.title) + "\n";
  script += "set ylabel " + quoted_for_gnuplot(unit.symbol(Spelling::screen)) + "\n$marks << EOD\n";
  std::size_t place = 0;
  for (const LabMark& mark : marks)
    if (mark.part == &part)
      script += fmt::format("{} {} {}\n", ++place, number(mark.reading->shown.value.value_in_si()),
                            number(mark.reading->shown.half_width.value_or(0.0)));
  script += "EOD\nplot $marks using 1:2:3 with yerrorbars linewidth 2 pointtype 7 linecolor rgb '#2f5d8a' title " +
            quoted_for_gnuplot(say(OHMWRIGHT_TEXT("readings with the doubt stated")));
  script += ", " + number(part.reference.value.value_in_si()) +
            " with lines linewidth 2 linecolor rgb '#222222' title " +
            quoted_for_gnuplot(say(OHMWRIGHT_TEXT("the reference")));
  for (const std::optional<StatedValue>& limit : {part.lower, part.upper})
    if (limit)
      script += ", " + number(limit->value.value_in_si()) +
                " with lines dashtype 2 linewidth 2 linecolor rgb '#a3201a' title " +
                quoted_for_gnuplot(say(OHMWRIGHT_TEXT("a limit of good parts")));
  return script + "\n";
}

}  // namespace

std::string lab_page(const Lab& lab, std::span<const LabMark> marks, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.block(lab.title);
  page.blank_line();
  page.table(rows_of_lab(marks, say));
  page.blank_line();
  page.block(explanation(say));
  return page.take();
}

std::string lab_csv(std::span<const LabMark> marks) {
  std::string csv = csv_row({"student", "tag", "reading_si", "doubt_si", "reference_si", "reference_doubt_si", "e_n",
                             "covers", "conditions"});
  for (const LabMark& mark : marks)
    csv +=
        csv_row({mark.reading->student, mark.part->tag, fmt::format("{:.9g}", mark.reading->shown.value.value_in_si()),
                 fmt::format("{:.9g}", mark.reading->shown.half_width.value_or(0.0)),
                 fmt::format("{:.9g}", mark.part->reference.value.value_in_si()),
                 fmt::format("{:.9g}", mark.part->reference.half_width.value_or(0.0)), fmt::format("{:.3f}", mark.e_n),
                 mark.covers ? "yes" : "no", mark.reading->conditions});
  return csv;
}

std::string lab_html(const Lab& lab, std::span<const LabMark> marks, const Sentences& say, std::string_view made_with) {
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
  return html_page(lab.title, body, made_with);
}

}  // namespace ohmwright::course
