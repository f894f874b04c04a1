#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_plot.hpp>
#include <ohmwright/report/log_report.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

std::string log_page(const LogReport& report, const Sentences& say, const PageStyle& style) {
  const LogContent content = log_content(report, say);
  PageLayout page(style);
  if (!content.brief_cautions.empty()) {
    page.section(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
    page.blank_line();
  }
  const bool is_quiet = !cycles::asks_for_a_test(report.verdicts) && content.questions.empty();
  page.coloured(content.headline, is_quiet ? colour_of_right : colour_of_doubt);
  const std::vector<std::string> plot = log_plot_lines(report, say, page.width());
  if (!plot.empty()) page.blank_line();
  page.drawing(plot);
  page.section(say(OHMWRIGHT_TEXT("Settle this first")), content.questions);
  page.section(say(OHMWRIGHT_TEXT("What it says")), content.verdicts);
  page.section(say(OHMWRIGHT_TEXT("What to do next")), content.next);
  page.section(content.defrosts_title, content.defrosts);
  page.section(say(OHMWRIGHT_TEXT("Cooling")), content.cooling);
  page.section(say(OHMWRIGHT_TEXT("What it cannot show")), content.not_shown);
  page.section(say(OHMWRIGHT_TEXT("How it was read")), content.form);
  page.section(say(OHMWRIGHT_TEXT("Rows that were wrong")), content.troubles);
  page.section(say(OHMWRIGHT_TEXT("Thresholds, from the log itself")), content.thresholds);
  return page.take();
}

}  // namespace ohmwright
