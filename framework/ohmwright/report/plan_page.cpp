#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/plan_report.hpp>

namespace ohmwright {

namespace {

void write_step(const PlanStepContent& step, const Sentences& say, PageLayout& page) {
  page.blank_line();
  page.numbered(step.number, step.title);
  if (!step.brief_cautions.empty()) page.block(caution_line(step.brief_cautions, say), "      ");
  for (const std::string& line : step.before) page.block(line, "      ");
  for (const PlanAnswerContent& answer : step.answers)
    page.item(say(OHMWRIGHT_TEXT("{answer} ({chance}): {then}"),
                  {{"answer", answer.answer}, {"chance", answer.chance}, {"then", answer.then}}));
  if (step.way_out) page.block(*step.way_out, "      ");
}

}  // namespace

std::string plan_page(const PlanReport& report, const Sentences& say, const PageStyle& style) {
  const PlanContent content = plan_content(report, say);
  PageLayout page(style);
  write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, say, page);
  page.coloured(content.headline, colour_of_doubt);
  for (const std::string& line : content.explanation) page.block(line, "  ");
  for (const PlanStepContent& step : content.steps) write_step(step, say, page);
  return page.take();
}

}  // namespace ohmwright
