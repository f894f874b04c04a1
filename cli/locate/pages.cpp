#include "locate/pages.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/locate/information.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

double share_of_doubt(const LocateReport& report, const locate::Step& step) {
  std::vector<double> probabilities;
  for (const locate::AnswerSet& answer : locate::answers(report.reasoner.faults(), report.diagnosis))
    probabilities.push_back(answer.probability);
  const double in_doubt = locate::entropy_in_bits(probabilities);
  return in_doubt > 0.0 ? std::min(1.0, step.gain_bits / in_doubt) : 1.0;
}

}  // namespace

int exit_of_search(const locate::Standing& standing) { return standing.is_named() ? exit_done : exit_undecided; }

LocateReport locate_report(locate::Search& search, const locate::WorkState& work, const std::string& meter_title,
                           bool cautions_in_full) {
  return {search.reasoner(),
          search.diagnosis(),
          search.standing(),
          search.readings(),
          search.signs(),
          search.steps(),
          work,
          search.settings().steps,
          search.settings().priors,
          meter_title,
          cautions_in_full};
}

std::string step_page(const LocateReport& report, std::vector<std::string>& told, const Sentences& say,
                      const PageStyle& style) {
  const LocateContent content = locate_content(report, say);
  PageLayout page(style);
  page.blank_line();
  page.block(content.headline);
  for (const std::string& text : content.explanation) page.block(text, "  ");
  std::vector<std::string> new_remarks;
  for (const std::string& text : content.remarks)
    if (std::find(told.begin(), told.end(), text) == told.end()) new_remarks.push_back(text);
  told.insert(told.end(), new_remarks.begin(), new_remarks.end());
  page.section(say(OHMWRIGHT_TEXT("Mind")), new_remarks);
  if (!content.next) return page.take();
  page.section(say(OHMWRIGHT_TEXT("Before you touch it")), content.next->cautions);
  page.heading(say(OHMWRIGHT_TEXT("Do next")));
  page.item(content.next->title);
  for (const std::string& text : content.next->before) page.block(text, "      ");
  if (content.next->way_out) page.block(*content.next->way_out, "    ");
  return page.take();
}

std::string why_page(const LocateReport& report, const Sentences& say, const PageStyle& style) {
  const LocateContent content = locate_content(report, say);
  PageLayout page(style);
  page.blank_line();
  if (!report.steps.empty()) {
    const locate::Step& step = report.steps.front();
    page.block(
        say(OHMWRIGHT_TEXT("It takes about {share} of what is in doubt away, in {minutes} min; with what it leaves, no "
                           "other step comes sooner to an end."),
            {{"share", percent_text(share_of_doubt(report, step))},
             {"minutes", std::to_string(std::lround(step.minutes))}}));
  }
  page.heading(say(OHMWRIGHT_TEXT("Possible faults")));
  for (const PossibleFaultLine& row : content.possible) page.bar(row.label, row.probability);
  if (content.next && !content.next->expected.empty()) {
    page.heading(say(OHMWRIGHT_TEXT("It would show about:")));
    for (const ExpectedReading& row : content.next->expected)
      page.item(say(OHMWRIGHT_TEXT("{shows}  if {fault}"), {{"shows", row.shows}, {"fault", row.fault}}));
  }
  return page.take();
}

}  // namespace ohmwright::cli
