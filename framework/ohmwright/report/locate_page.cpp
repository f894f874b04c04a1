#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/page_cautions.hpp>

namespace ohmwright {

namespace {

std::string_view colour_of(locate::Standing::Form form) {
  switch (form) {
    case locate::Standing::Form::settled:
      return colour_of_right;
    case locate::Standing::Form::sealed_system:
      return colour_of_wrong;
    default:
      return colour_of_doubt;
  }
}

void write_possible(const LocateContent& content, const Sentences& say, PageLayout& page) {
  if (content.possible.empty()) return;
  page.heading(say(OHMWRIGHT_TEXT("Possible faults")));
  for (const PossibleFaultLine& line : content.possible) page.bar(line.label, line.probability);
  if (content.others > 0.0) page.bar(say(OHMWRIGHT_TEXT("all others together")), content.others);
}

void write_next(const LocateContent& content, const Sentences& say, PageLayout& page) {
  if (!content.next) return;
  page.heading(say(OHMWRIGHT_TEXT("Do next")));
  page.item(content.next->title);
  for (const std::string& line : content.next->before) page.block(line, "      ");
  if (!content.next->expected.empty()) page.block(say(OHMWRIGHT_TEXT("It would show about:")), "    ");
  for (const ExpectedReading& row : content.next->expected)
    page.block(say(OHMWRIGHT_TEXT("{shows}  if {fault}"), {{"shows", row.shows}, {"fault", row.fault}}), "      ");
  if (content.next->way_out) page.block(*content.next->way_out, "    ");
  page.section(say(OHMWRIGHT_TEXT("Or instead")), content.instead);
}

}  // namespace

std::string locate_page(const LocateReport& report, const Sentences& say, const PageStyle& style) {
  const LocateContent content = locate_content(report, say);
  PageLayout page(style);
  write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, say, page);
  page.coloured(content.headline, colour_of(report.standing.form));
  for (const std::string& line : content.explanation) page.block(line, "  ");
  write_possible(content, say, page);
  page.section(say(OHMWRIGHT_TEXT("What is known")), content.evidence);
  page.section(say(OHMWRIGHT_TEXT("Mind")), content.remarks);
  write_next(content, say, page);
  page.section(say(OHMWRIGHT_TEXT("What to do now")), content.afterwards);
  page.section(say(OHMWRIGHT_TEXT("What is assumed")), content.assumed);
  return page.take();
}

}  // namespace ohmwright
