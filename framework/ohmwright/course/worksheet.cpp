#include <vector>

#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/course/worksheet.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>

namespace ohmwright::course {

namespace {

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
  for (std::size_t i = 0; i < exercise.places.set_ups.size(); ++i)
    if (exercise.places.set_ups[i].id == id) return set_up_in_words(exercise, i);
  const std::string as_found = say(OHMWRIGHT_TEXT("as found"));
  return exercise.on_the_table && !exercise.as_found.empty()
             ? as_found + " [" + exercise.as_found.front().temperature + "]"
             : as_found;
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

/// The same of a slip: what is read with the lead off and in circuit side by side, so that a slip is no longer than a
/// page.
std::string slip_table(const Exercise& exercise, std::size_t point, const Sentences& say) {
  const bool chooses = exercise.lifts_leads[point];
  std::vector<std::string> names{say(OHMWRIGHT_TEXT("set-up"))};
  if (chooses)
    names.insert(names.end(), {say(OHMWRIGHT_TEXT("lead off")), say(OHMWRIGHT_TEXT("in circuit"))});
  else
    names.push_back(say(OHMWRIGHT_TEXT("the meter shows")));
  std::vector<std::vector<std::string>> rows;
  const std::string* set_up = nullptr;  // of the last row
  for (const auto& [place, values] : exercise.readings) {
    if (place.test_point != exercise.places.test_points[point].id) continue;
    if (set_up == nullptr || *set_up != place.set_up) {
      rows.push_back({set_up_title(exercise, place.set_up, say)});
      rows.back().resize(names.size());
    }
    set_up = &place.set_up;
    rows.back()[chooses && place.leads_in ? 2 : 1] = first_shown(exercise, point, values);
  }
  return table_of_rows(names, rows);
}

std::string lines_to_write(std::size_t count) {
  std::string lines;
  for (std::size_t i = 0; i < count; ++i) lines += "<div class=\"line\"></div>\n";
  return lines;
}

std::string cautions_box(const Exercise& exercise, const Sentences& say) {
  std::vector<std::string> lines;
  for (const auto& caution : exercise.cautions) lines.push_back(caution_in_words(caution, say));
  return "<div class=\"cautions\">" + html_section(say(OHMWRIGHT_TEXT("Before you touch it")), lines) + "</div>\n";
}

std::string questions(const Sentences& say) {
  std::string html;
  for (const std::string& question :
       {say(OHMWRIGHT_TEXT("Which part is at fault, and how did it fail? Or is nothing wrong?")),
        say(OHMWRIGHT_TEXT("Which readings ruled the others out?")),
        say(OHMWRIGHT_TEXT("How sure are you, in percent? What would make you surer?")),
        say(OHMWRIGHT_TEXT("What must be safe before you touch it, and how did you make sure?"))})
    html += "<div class=\"question\"><h2>" + html_text(question) + "</h2>\n" + lines_to_write(2) + "</div>\n";
  return html;
}

std::string how_warm(const Exercise& exercise, const Sentences& say) {
  return "<div class=\"asks\">" +
         html_section(say(OHMWRIGHT_TEXT("How warm it is, as found")), temperatures_as_found(exercise)) + "</div>\n";
}

std::string probe_letter(Probe probe) { return probe == Probe::ohms ? "Ω" : probe == Probe::volts ? "V" : "A"; }

/// The test points by the numbers that the drawing gives them.
std::string numbered_test_points(const Exercise& exercise, const Sentences& say) {
  std::string html = "<h2>" + html_text(say(OHMWRIGHT_TEXT("Test points"))) + "</h2>\n<ol class=\"columns\">\n";
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i) {
    const TestPoint& point = exercise.places.test_points[i];
    html += "<li>" + probe_letter(point.probe) + " " + html_text(point.title);
    if (exercise.lifts_leads[i]) html += ": " + html_text(say(OHMWRIGHT_TEXT("lead off, or in circuit")));
    html += "</li>\n";
  }
  return html + "</ol>\n";
}

/// What a student can ask for besides: set-ups, and what can be looked at.
std::string set_ups_and_looks(const Exercise& exercise, const Sentences& say) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < exercise.places.set_ups.size(); ++i) lines.push_back(set_up_in_words(exercise, i));
  std::string html = html_section(say(OHMWRIGHT_TEXT("Set-ups")), lines);
  lines.clear();
  for (const Look& look : exercise.looks) lines.push_back(look_in_words(look, say));
  html += html_section(say(OHMWRIGHT_TEXT("What you can look at: ask, and write yes or no")), lines);
  return "<div class=\"asks\">" + html + "</div>\n";
}

/// Lines to fill in, numbered so that an answer can cite them.
std::string blank_readings(const Sentences& say) {
  constexpr std::size_t blank_rows = 25;
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 1; i <= blank_rows; ++i) rows.push_back({std::to_string(i), "", "", "", "", ""});
  return "<h2>" + html_text(say(OHMWRIGHT_TEXT("Readings"))) + "</h2>\n" +
         table_of_rows(
             {say(OHMWRIGHT_TEXT("No.")), say(OHMWRIGHT_TEXT("test point")), say(OHMWRIGHT_TEXT("set-up")),
              say(OHMWRIGHT_TEXT("leads")), say(OHMWRIGHT_TEXT("range")), say(OHMWRIGHT_TEXT("the meter shows"))},
             rows);
}

/// A slip to be folded: its hatched half lies over the readings, its number and title stay in view below.
std::string slip(const Exercise& exercise, std::size_t point, const Sentences& say) {
  return "<div class=\"slip\"><div class=\"cover\"></div>\n<div class=\"fold\">" +
         html_text(
             say(OHMWRIGHT_TEXT("fold the hatched half over the readings and close it; open it when you have said "
                                "how you measure"))) +
         "</div>\n<div class=\"inside\">" + slip_table(exercise, point, say) + "</div>\n<div class=\"strip\"><strong>" +
         std::to_string(point + 1) + "</strong> " + html_text(exercise.places.test_points[point].title) + " · " +
         html_text(exercise.name) + "</div></div>\n";
}

/// One slip for all that can be looked at.
std::string slip_of_looks(const Exercise& exercise, const Sentences& say) {
  if (exercise.looks.empty()) return {};
  std::vector<std::vector<std::string>> rows;
  for (const Look& look : exercise.looks)
    rows.push_back({look_in_words(look, say), look.seen ? say(OHMWRIGHT_TEXT("yes")) : say(OHMWRIGHT_TEXT("no"))});
  return "<div class=\"together\"><h2>" +
         html_text(say(OHMWRIGHT_TEXT("For whoever answers what is looked at; students ask"))) + "</h2>\n" +
         table_of_rows({say(OHMWRIGHT_TEXT("Is this so?")), say(OHMWRIGHT_TEXT("it is seen"))}, rows) + "</div>\n";
}

}  // namespace

std::string worksheet_html(const Exercise& exercise, std::string_view drawing, const WorksheetStyle& style,
                           const Sentences& say) {
  std::string body = "<h1>" + html_text(exercise.title) + "</h1>\n<p>" + html_text(complaint_in_words(exercise, say)) +
                     "</p>\n<p>" + html_text(say(OHMWRIGHT_TEXT("Exercise {name}"), {{"name", exercise.name}})) +
                     " · " + html_text(exercise.meter.title) + "</p>\n";
  body +=
      html_line_to_fill({say(OHMWRIGHT_TEXT("Name")), say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Check words"))});
  body += cautions_box(exercise, say);
  body += "<div class=\"asks\">" +
          html_section(say(OHMWRIGHT_TEXT("What is stamped on the parts")), plates_of(exercise)) + "</div>\n";
  body += how_warm(exercise, say) + numbered_test_points(exercise, say) + set_ups_and_looks(exercise, say);
  if (!drawing.empty()) body += circuit_on_a_page(drawing, say);
  body += blank_readings(say) + questions(say);
  if (const std::string remark = remark_on_looks(exercise, say); !remark.empty())
    body += "<p>" + html_text(remark) + "</p>\n";
  return paper_page(exercise.title, body, style);
}

std::string slips_html(const Exercise& exercise, const WorksheetStyle& style, const Sentences& say) {
  std::string body = how_warm(exercise, say);
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i) body += slip(exercise, i, say);
  return paper_page(exercise.title, body + slip_of_looks(exercise, say), style);
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
