#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/page_cautions.hpp>
#include <ohmwright/report/verdict_content.hpp>

namespace ohmwright {

namespace {

/// The rules that had nothing to go on: their number is enough, unless asked for.
void write_silent_rules(const VerdictReport& report, const VerdictContent& content, const Sentences& say,
                        PageLayout& page) {
  if (report.every_rule) return page.section(say(OHMWRIGHT_TEXT("Not checked")), content.silent);
  if (content.silent.empty()) return;
  page.blank_line();
  page.block(say(OHMWRIGHT_TEXT("Other checks had nothing to go on: {count} (--every-rule says why)."),
                 {{"count", std::to_string(content.silent.size())}}));
}

}  // namespace

std::string verdict_page(const VerdictReport& report, const Sentences& say, const PageStyle& style) {
  const VerdictContent content = verdict_content(report, say);
  PageLayout page(style);
  write_cautions(content.brief_cautions, content.cautions, report.cautions_in_full, say, page);
  page.coloured(content.headline, colour_of(report.verdict.outcome));
  for (const std::string& chance : content.chances) page.block(chance, "  ");
  page.section(say(OHMWRIGHT_TEXT("Why")), content.reasons);
  page.section(say(OHMWRIGHT_TEXT("Readings")), content.readings);
  if (!content.doubt.empty()) page.heading(say(OHMWRIGHT_TEXT("Where the doubt comes from")));
  for (const DoubtShare& share : content.doubt) page.bar(share.label, share.share);
  page.section(say(OHMWRIGHT_TEXT("What to do next")), content.advice);
  write_silent_rules(report, content, say, page);
  return page.take();
}

}  // namespace ohmwright
