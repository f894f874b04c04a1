#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

namespace {

/// Where the price, the day and the name of who signs are written by hand.
void write_lines_to_fill(const Sentences& say, PageLayout& page) {
  for (const std::string_view label : {OHMWRIGHT_TEXT("Price"), OHMWRIGHT_TEXT("Date"), OHMWRIGHT_TEXT("Signature")}) {
    page.blank_line();
    page.block(say(label) + ": ______________________________");
  }
}

}  // namespace

std::string job_page(const JobReport& report, const Sentences& say, const PageStyle& style) {
  const JobContent content = printable_job_content(report, say);
  PageLayout page(style);
  if (!content.warning.empty()) page.block(content.warning);
  page.block(content.headline);
  for (const std::string& fact : content.facts) page.block(fact, "  ");
  const auto section = [&](std::string_view title, const std::vector<std::string>& lines) {
    page.section(say(title), lines);
  };
  section(OHMWRIGHT_TEXT("What was wrong"), content.wrong);
  section(OHMWRIGHT_TEXT("What was done"), content.done);
  section(OHMWRIGHT_TEXT("Proof"), content.proof);
  section(OHMWRIGHT_TEXT("What to watch"), content.watch);
  section(OHMWRIGHT_TEXT("What still stands against it"), content.open_points);
  write_lines_to_fill(say, page);
  page.heading(say(OHMWRIGHT_TEXT("For the shop")));
  section(OHMWRIGHT_TEXT("Said on the phone"), content.phone);
  if (content.readings.size() > 1) {
    page.heading(say(OHMWRIGHT_TEXT("Readings")));
    page.table(content.readings);
  }
  section(OHMWRIGHT_TEXT("Why, and where the doubt came from"), content.judged);
  if (!report.possible_now.empty()) page.heading(possible_faults_title(report, say));
  for (const PossibleFaultLine& row : report.possible_now) page.bar(row.label, row.probability);
  section(OHMWRIGHT_TEXT("Parts replaced or mended"), content.replaced);
  section(OHMWRIGHT_TEXT("Checked after the repair"), content.checks);
  if (content.log_figures.size() > 1) {
    page.heading(say(OHMWRIGHT_TEXT("The logs before and after")));
    page.table(content.log_figures);
  }
  section(OHMWRIGHT_TEXT("Notes"), content.notes);
  section(OHMWRIGHT_TEXT("Still unproved"), content.unproved);
  section(OHMWRIGHT_TEXT("Cautions that were shown"), content.cautions);
  return page.take();
}

}  // namespace ohmwright
