#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/limits_picture.hpp>
#include <ohmwright/report/verdict_content.hpp>

namespace ohmwright {

namespace {

std::string bar(const DoubtShare& share) {
  const std::string percent = std::to_string(std::lround(100.0 * share.share)) + "&nbsp;%";
  const std::string width = std::to_string(std::lround(100.0 * share.share)) + "%";
  return "<div class=\"bar\"><span><i style=\"width:" + width + "\"></i></span><b>" + percent + "</b><span>" +
         html_text(share.label) + "</span></div>\n";
}

}  // namespace

std::string verdict_html(const VerdictReport& report, const Chart* chart, const Sentences& say) {
  const VerdictContent content = verdict_content(report, say, Audience::who_is_handed_the_page);
  std::string body = html_cautions(say(OHMWRIGHT_TEXT("Before you touch it")), content.brief_cautions);
  body += "<div class=\"" + std::string(name_of(report.verdict.outcome)) + "\">\n<h1>" + html_text(content.headline) +
          "</h1>\n</div>\n";
  for (const std::string& chance : content.chances) body += "<p>" + html_text(chance) + "</p>\n";
  body += html_section(say(OHMWRIGHT_TEXT("Why")), content.reasons);
  if (chart != nullptr)
    if (const std::optional<std::string> picture = chart_picture(*chart, say))
      body +=
          html_picture(*picture, say(OHMWRIGHT_TEXT("The reading against what good parts read")), PictureFit::shrinks);
  if (const std::optional<std::string> picture = limits_picture(report, chart, say))
    body += html_picture(*picture, say(OHMWRIGHT_TEXT("What was read against the limits of good parts")),
                         PictureFit::shrinks);
  body += html_section(say(OHMWRIGHT_TEXT("Readings")), content.readings);
  if (!content.doubt.empty()) body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Where the doubt comes from"))) + "</h2>\n";
  for (const DoubtShare& share : content.doubt) body += bar(share);
  body += html_section(say(OHMWRIGHT_TEXT("What to do next")), content.advice);
  body += html_folded(say(OHMWRIGHT_TEXT("The cautions in full")), content.cautions);
  body += html_folded(say(OHMWRIGHT_TEXT("Not checked, and why")), content.silent);
  body += html_line_to_fill({say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Job")), say(OHMWRIGHT_TEXT("Read by"))});
  return html_page(content.headline, body, report.made_with);
}

}  // namespace ohmwright
