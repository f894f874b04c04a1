#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/locate_report.hpp>

namespace ohmwright {

namespace {

std::string_view style_of(locate::Standing::Form form) {
  switch (form) {
    case locate::Standing::Form::settled:
      return "within-limits";
    case locate::Standing::Form::sealed_system:
      return "out-of-limits";
    default:
      return "undecided";
  }
}

std::string bar(const std::string& label, double share) {
  const std::string percent = std::to_string(std::lround(100.0 * share));
  return "<div class=\"bar\"><span><i style=\"width:" + percent + "%\"></i></span><b>" + percent + "&nbsp;%</b><span>" +
         html_text(label) + "</span></div>\n";
}

std::string next_html(const StepContent& next, const Sentences& say) {
  std::string html = "<h2>" + html_text(say(OHMWRIGHT_TEXT("Do next"))) + "</h2>\n<p><strong>" + html_text(next.title) +
                     "</strong></p>\n";
  if (!next.before.empty()) {
    html += "<ol>\n";
    for (const std::string& line : next.before) html += "<li>" + html_text(line) + "</li>\n";
    html += "</ol>\n";
  }
  const std::string way_out = next.way_out ? "<p>" + html_text(*next.way_out) + "</p>\n" : std::string();
  if (next.expected.empty()) return html + way_out;
  html += "<table>\n<tr><th>" + html_text(say(OHMWRIGHT_TEXT("It would show about"))) + "</th><th>" +
          html_text(say(OHMWRIGHT_TEXT("if the fault is"))) + "</th></tr>\n";
  for (const ExpectedReading& row : next.expected)
    html += "<tr><td>" + html_text(row.shows) + "</td><td>" + html_text(row.fault) + "</td></tr>\n";
  return html + "</table>\n" + way_out;
}

}  // namespace

std::string locate_html(const LocateReport& report, const Sentences& say, std::string_view drawing,
                        std::string_view made_with) {
  const LocateContent content = locate_content(report, say);
  const std::string& appliance_title = report.reasoner.prober().appliance().title;
  std::string body = html_cautions(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
  body += "<div class=\"" + std::string(style_of(report.standing.form)) + "\">\n<h1>" + html_text(content.headline) +
          "</h1>\n</div>\n<p>" + html_text(appliance_title) + "</p>\n";
  for (const std::string& line : content.explanation) body += "<p>" + html_text(line) + "</p>\n";
  if (!content.possible.empty()) body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Possible faults"))) + "</h2>\n";
  for (const PossibleFaultLine& line : content.possible) body += bar(line.label, line.probability);
  if (content.others > 0.0) body += bar(say(OHMWRIGHT_TEXT("all others together")), content.others);
  body += html_section(say(OHMWRIGHT_TEXT("What is known")), content.evidence);
  body += html_section(say(OHMWRIGHT_TEXT("Mind")), content.remarks);
  if (content.next) body += next_html(*content.next, say);
  body += html_section(say(OHMWRIGHT_TEXT("Or instead")), content.instead);
  body += html_section(say(OHMWRIGHT_TEXT("What to do now")), content.afterwards);
  if (!drawing.empty() && !content.possible.empty())
    body += html_picture(drawing, say(OHMWRIGHT_TEXT("The circuit with its test points")));
  body += html_folded(say(OHMWRIGHT_TEXT("The cautions in full")), content.cautions);
  body += html_section(say(OHMWRIGHT_TEXT("What is assumed")), content.assumed);
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Job")), say(OHMWRIGHT_TEXT("Read by"))});
  return html_page(content.headline + " - " + appliance_title, body, made_with);
}

}  // namespace ohmwright
