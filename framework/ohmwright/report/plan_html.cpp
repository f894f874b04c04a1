#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/plan_report.hpp>

namespace ohmwright {

namespace {

std::string then_html(const PlanAnswerContent& answer) {
  if (answer.next == 0) return html_text(answer.then);
  return "<a href=\"#step-" + std::to_string(answer.next) + "\">" + html_text(answer.then) + "</a>";
}

std::string step_html(const PlanStepContent& step, const Sentences& say) {
  const std::string number = std::to_string(step.number);
  std::string html = "<h2 id=\"step-" + number + "\">" + number + "&ensp;" + html_text(step.title) + "</h2>\n";
  html += html_cautions(say(OHMWRIGHT_TEXT("Before you touch it")), step.brief_cautions);
  if (!step.before.empty()) {
    html += "<ol>\n";
    for (const std::string& line : step.before) html += "<li>" + html_text(line) + "</li>\n";
    html += "</ol>\n";
  }
  html += "<table>\n<tr><th>" + html_text(say(OHMWRIGHT_TEXT("It shows"))) + "</th><th>" +
          html_text(say(OHMWRIGHT_TEXT("Chance"))) + "</th><th>" + html_text(say(OHMWRIGHT_TEXT("Then"))) +
          "</th></tr>\n";
  for (const PlanAnswerContent& answer : step.answers)
    html += "<tr><td>" + html_text(answer.answer) + "</td><td>" + html_text(answer.chance) + "</td><td>" +
            then_html(answer) + "</td></tr>\n";
  html += "</table>\n";
  return step.way_out ? html + "<p>" + html_text(*step.way_out) + "</p>\n" : html;
}

}  // namespace

std::string plan_html(const PlanReport& report, const Sentences& say) {
  const PlanContent content = plan_content(report, say);
  std::string body = "<div class=\"undecided\">\n<h1>" + html_text(content.headline) + "</h1>\n</div>\n";
  body += "<p><strong>" + html_text(report.faults.appliance().title) + "</strong></p>\n";
  for (const std::string& line : content.explanation) body += "<p>" + html_text(line) + "</p>\n";
  body += html_cautions(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
  for (const PlanStepContent& step : content.steps) body += step_html(step, say);
  body += html_folded(say(OHMWRIGHT_TEXT("The cautions in full")), content.cautions);
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Job")), say(OHMWRIGHT_TEXT("Read by"))});
  return html_page(content.headline, body);
}

}  // namespace ohmwright
