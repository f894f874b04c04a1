#include <algorithm>

#include <nlohmann/json.hpp>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/log_verdict_json.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/repair_report.hpp>

namespace ohmwright {

namespace {

using RepairJson = nlohmann::ordered_json;

RepairJson figure_json(const std::optional<cycles::LogFigure>& figure) {
  if (!figure) return nullptr;
  return {{"mean", figure->mean}, {"standard_uncertainty", figure->scatter}, {"count", figure->count}};
}

}  // namespace

std::string repair_page(const RepairReport& report, const Sentences& say, const PageStyle& style) {
  const RepairContent content = repair_content(report, say);
  PageLayout page(style);
  if (!content.brief_cautions.empty()) {
    page.section(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
    page.blank_line();
  }
  page.coloured(content.headline, colour_of(report.comparison.outcome));
  page.section(say(OHMWRIGHT_TEXT("The faults")), content.faults);
  page.heading(say(OHMWRIGHT_TEXT("What changed")));
  page.table(content.figures);
  page.section(say(OHMWRIGHT_TEXT("What is still unproved")), content.unproved);
  page.section(say(OHMWRIGHT_TEXT("The logs")), content.logs);
  return page.take();
}

std::string repair_html(const RepairReport& report, const Sentences& say) {
  const RepairContent content = repair_content(report, say);
  std::string body = html_section(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
  body += "<div class=\"" + std::string(name_of(report.comparison.outcome)) + "\">\n<h1>" +
          html_text(content.headline) + "</h1>\n</div>\n";
  body += html_section(say(OHMWRIGHT_TEXT("The faults")), content.faults);
  body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("What changed"))) + "</h2>\n" + html_table(content.figures);
  body += html_section(say(OHMWRIGHT_TEXT("What is still unproved")), content.unproved);
  body += html_section(say(OHMWRIGHT_TEXT("The logs")), content.logs);
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Job")), say(OHMWRIGHT_TEXT("Read by"))});
  return html_page(content.headline, body);
}

std::string repair_json(const RepairReport& report, const Sentences& say) {
  const cycles::RepairComparison& comparison = report.comparison;
  RepairJson json{{"verdict", name_of(comparison.outcome)}, {"fault_before", comparison.fault_before}};
  json["rules"] = RepairJson::array();
  for (const cycles::RuleChange& change : comparison.rules)
    json["rules"].push_back({{"rule", change.rule},
                             {"stand", cycles::name_of(change.stand)},
                             {"before", log_verdict_json(change.before, say)},
                             {"after", log_verdict_json(change.after, say)}});
  json["figures"] = RepairJson::array();
  for (const cycles::FigureChange& change : comparison.figures) {
    RepairJson figure{{"id", change.id},
                      {"unit", si_unit_of(change.dimension)},
                      {"before", figure_json(change.before)},
                      {"after", figure_json(change.after)}};
    if (change.probability_greater) figure["probability_greater"] = *change.probability_greater;
    json["figures"].push_back(std::move(figure));
  }
  json["unproved"] = RepairJson::array();
  for (const cycles::LogFinding& finding : comparison.unproved) json["unproved"].push_back(log_finding_json(finding));
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
