#include <vector>

#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/worksheet.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>

namespace ohmwright::course {

namespace {

/// On paper nothing loads, and no colour is needed.
constexpr std::string_view paper_style = R"(
@page { margin: 15mm; }
body { font: 11pt/1.4 serif; color: #000; background: #fff; max-width: 180mm; margin: 0 auto; padding: 1rem; }
body.large { font-size: 16pt; }
h1 { font-size: 1.4em; } h2 { font-size: 1.1em; break-after: avoid; }
table { border-collapse: collapse; width: 100%; } tr { break-inside: avoid; } thead { display: table-header-group; }
td, th { border: 1px solid #000; padding: 0.3em 0.4em; text-align: left; vertical-align: top; }
td.blank { min-width: 4em; } .cautions { border: 2px solid #000; padding: 0 0.8em; break-inside: avoid; }
img { max-width: 100%; filter: grayscale(1); } .line { border-bottom: 1px solid #000; height: 1.8em; }
.slip { border: 1px dashed #000; padding: 0.6em; margin: 0 0 0.8em; break-inside: avoid; }
.fold { border-top: 1px dotted #000; margin: 0.6em 0; font-size: 0.8em; text-align: center; }
.to-fill { display: flex; gap: 2rem; } .to-fill span { flex: 1; border-bottom: 1px solid #000; }
@page wide { size: landscape; } .circuit { page: wide; break-inside: avoid; } .circuit img { width: 100%; }
@media print { body { padding: 0; max-width: none; } }
)";

std::string paper_page(std::string_view title, std::string_view body, const WorksheetStyle& style) {
  std::string page =
      "<!DOCTYPE html>\n<html>\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
      "content=\"width=device-width, "
      "initial-scale=1\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'; img-src data:\">\n<title>";
  page.append(html_text(title)).append("</title>\n<style>").append(paper_style).append("</style>\n</head>\n<body");
  page.append(style.large ? " class=\"large\">\n" : ">\n").append(body);
  return page.append("</body>\n</html>\n");
}

std::string row_of(const std::vector<std::string>& cells, std::string_view tag = "td") {
  std::string row = "<tr>";
  for (const std::string& cell : cells) {
    row.append("<").append(tag).append(cell.empty() ? " class=\"blank\">" : ">").append(html_text(cell));
    row.append("</").append(tag).append(">");
  }
  return row + "</tr>\n";
}

std::string table_of_rows(const std::vector<std::string>& names, const std::vector<std::vector<std::string>>& rows) {
  std::string table = "<table>\n<thead>" + row_of(names, "th") + "</thead>\n<tbody>\n";
  for (const std::vector<std::string>& row : rows) table += row_of(row);
  return table + "</tbody>\n</table>\n";
}

std::string set_up_title(const Exercise& exercise, const std::string& id, const Sentences& say) {
  for (const SetUp& set_up : exercise.places.set_ups)
    if (set_up.id == id) return set_up.title;
  return say(OHMWRIGHT_TEXT("as found"));
}

std::string leads_text(const ReadingPlace& place, bool chooses, const Sentences& say) {
  if (!chooses) return "-";
  return place.leads_in ? say(OHMWRIGHT_TEXT("in circuit")) : say(OHMWRIGHT_TEXT("lead off"));
}

/// What the meter shows there, the first time.
std::string first_shown(const Exercise& exercise, std::size_t point, const std::vector<std::optional<double>>& values) {
  const Dimension dimension = locate::dimension_of(exercise.places.test_points[point].probe);
  return shown_on(exercise.meter, dimension, "auto", values.front());
}

/// The readings of a test point, each with its set-up and leads.
std::vector<std::vector<std::string>> rows_at(const Exercise& exercise, std::size_t point, const Sentences& say) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& [place, values] : exercise.readings)
    if (place.test_point == exercise.places.test_points[point].id)
      rows.push_back({set_up_title(exercise, place.set_up, say), leads_text(place, exercise.lifts_leads[point], say),
                      first_shown(exercise, point, values)});
  return rows;
}

std::string lines_to_write(std::size_t count) {
  std::string lines;
  for (std::size_t i = 0; i < count; ++i) lines += "<div class=\"line\"></div>\n";
  return lines;
}

std::string cautions_box(const Exercise& exercise, const Sentences& say) {
  std::vector<std::string> lines;
  for (const auto& caution : exercise.cautions) lines.push_back(caution.second);
  return "<div class=\"cautions\">" + html_section(say(OHMWRIGHT_TEXT("Before you touch it")), lines) + "</div>\n";
}

std::string questions(const Sentences& say) {
  std::string html;
  for (const std::string& question :
       {say(OHMWRIGHT_TEXT("Which part is at fault, and how did it fail? Or is nothing wrong?")),
        say(OHMWRIGHT_TEXT("Which readings ruled the others out?")),
        say(OHMWRIGHT_TEXT("How sure are you, in percent? What would make you surer?")),
        say(OHMWRIGHT_TEXT("What must be safe before you touch it, and how did you make sure?"))})
    html += "<h2>" + html_text(question) + "</h2>\n" + lines_to_write(2);
  return html;
}

}  // namespace

std::string worksheet_html(const Exercise& exercise, std::string_view drawing, const WorksheetStyle& style,
                           const Sentences& say) {
  std::string body = "<h1>" + html_text(exercise.title) + "</h1>\n<p>" + html_text(exercise.complaint) + "</p>\n<p>" +
                     html_text(say(OHMWRIGHT_TEXT("Exercise {name}"), {{"name", exercise.name}})) + " · " +
                     html_text(exercise.meter.title) + "</p>\n";
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Name")), say(OHMWRIGHT_TEXT("Date"))});
  body += cautions_box(exercise, say);
  if (!drawing.empty())
    body += "<div class=\"circuit\">" +
            html_picture(drawing, say(OHMWRIGHT_TEXT("the circuit with its test points")), PictureFit::shrinks) +
            "</div>\n";
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i)
    rows.push_back({std::to_string(i + 1), exercise.places.test_points[i].title, "", "", ""});
  body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Readings"))) + "</h2>\n";
  body += table_of_rows(
      {say(OHMWRIGHT_TEXT("No.")), say(OHMWRIGHT_TEXT("test point")), say(OHMWRIGHT_TEXT("set-up, leads")),
       say(OHMWRIGHT_TEXT("range")), say(OHMWRIGHT_TEXT("the meter shows"))},
      rows);
  return paper_page(exercise.title, body + questions(say), style);
}

std::string slips_html(const Exercise& exercise, const WorksheetStyle& style, const Sentences& say) {
  std::string body;
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i) {
    body += "<div class=\"slip\"><strong>" + std::to_string(i + 1) + "</strong> " +
            html_text(exercise.places.test_points[i].title) + " · " + html_text(exercise.name) +
            "<div class=\"fold\">" +
            html_text(say(OHMWRIGHT_TEXT("fold here and close; open it when you have said how "
                                         "you measure"))) +
            "</div>\n" +
            table_of_rows(
                {say(OHMWRIGHT_TEXT("set-up")), say(OHMWRIGHT_TEXT("leads")), say(OHMWRIGHT_TEXT("the meter shows"))},
                rows_at(exercise, i, say)) +
            "</div>\n";
  }
  return paper_page(exercise.title, body, style);
}

std::string answer_sheet_html(const MadeExercise& made, const WorksheetStyle& style, const Sentences& say) {
  const Exercise& exercise = made.exercise;
  std::vector<std::string> lines;
  for (const std::string& name : made.truth.names) {
    const std::string part = name.substr(0, name.find('.'));
    const std::string fault = name.substr(name.find('.') + 1);
    std::string line = name;
    for (const AnswerPart& one : exercise.parts)
      for (const auto& [id, title] : one.faults)
        if (one.id == part && id == fault) line = one.title + ": " + title + " (" + name + ")";
    lines.push_back(line);
  }
  if (lines.empty()) lines.push_back(say(OHMWRIGHT_TEXT("nothing: no part is at fault")));
  std::string body = "<h1>" + html_text(say(OHMWRIGHT_TEXT("Answers: {name}"), {{"name", exercise.name}})) + "</h1>\n" +
                     html_section(say(OHMWRIGHT_TEXT("At fault")), lines);
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i)
    for (std::vector<std::string>& row : rows_at(exercise, i, say)) {
      row.insert(row.begin(), exercise.places.test_points[i].title);
      rows.push_back(std::move(row));
    }
  body += table_of_rows({say(OHMWRIGHT_TEXT("test point")), say(OHMWRIGHT_TEXT("set-up")), say(OHMWRIGHT_TEXT("leads")),
                         say(OHMWRIGHT_TEXT("the meter shows"))},
                        rows);
  return paper_page(exercise.name, body, style);
}

}  // namespace ohmwright::course
