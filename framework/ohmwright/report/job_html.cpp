#include <cmath>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/job_report.hpp>

namespace ohmwright {

namespace {

std::string fault_bar(const PossibleFaultLine& row) {
  const std::string percent = std::to_string(std::lround(100.0 * row.probability));
  return "<div class=\"bar\"><span><i style=\"width:" + percent + "%\"></i></span><b>" + percent + "&nbsp;%</b><span>" +
         html_text(row.label) + "</span></div>\n";
}

std::string fault_bars(const std::string& title, const std::vector<PossibleFaultLine>& rows) {
  if (rows.empty()) return {};
  std::string html = "<section>\n<h3>" + html_text(title) + "</h3>\n";
  for (const PossibleFaultLine& row : rows) html += fault_bar(row);
  return html + "</section>\n";
}

std::string pictures(const std::string& title, const std::vector<JobPicture>& all, PictureFit fit) {
  if (all.empty()) return {};
  std::string html = "<section>\n<h3>" + html_text(title) + "</h3>\n";
  for (const JobPicture& picture : all) {
    if (all.size() > 1) html += "<div class=\"plate\">\n";
    html += html_picture(picture.svg, picture.alternative, fit);
    if (all.size() > 1) html += "<p>" + html_text(picture.alternative) + "</p>\n</div>\n";
  }
  return html + "</section>\n";
}

std::string_view state_style(job::JobState state) {
  if (state == job::JobState::repaired) return "within-limits";
  return state == job::JobState::stopped ? "out-of-limits" : "undecided";
}

/// A page that fills two sheets of A4 or Letter in print: no letter is smaller than 8 points, and the shop's part
/// begins where the customer's ends.
constexpr std::string_view print_style = R"(<style>
@media print {
  body { font-size: 9pt; line-height: 1.25; max-width: none; }
  h1 { font-size: 13pt; } h2 { font-size: 10.5pt; } h3 { font-size: 9.5pt; }
  h2, h3, p, ul { margin: 0.1rem 0; } ul { padding-left: 1rem; }
  .shop { columns: 2; column-gap: 0.8rem; font-size: 8pt; line-height: 1.15; border-top: 1pt solid #555; }
  .shop p, .shop ul, .shop h2, .shop h3 { margin: 0.05rem 0; }
  .shop img { width: auto; max-width: 100%; max-height: 3.4cm; }
  .shop .scrolls img { width: 100%; max-height: 9cm; }
  .shop .wide, .shop table { font-size: 8pt; }
  .shop h2 { font-size: 9.5pt; } .shop h3 { font-size: 8.5pt; }
  .shop section { break-inside: auto; } .shop .picture, .shop .plate, .shop .bar { break-inside: avoid; }
  .shop .readings { column-span: all; } .shop .readings table { width: 100%; }
  .shop .readings td, .shop .readings th { padding: 0.02rem 0.3rem; }
  .shop .readings td:nth-child(2), .shop .readings td:nth-child(5) { white-space: nowrap; }
  .shop .plate { display: inline-block; width: 49%; vertical-align: top; }
  .shop .bar { gap: 0.3rem; } .shop .bar b { flex-basis: 2rem; }
  .bar { margin: 0; } .bar span:first-child { flex-basis: 2.5rem; height: 0.5rem; }
  .price { margin: 1rem 0 0.4rem; }
  footer { font-size: 8pt; margin-top: 0.3rem; }
  @page { margin: 1cm; }
}
p, li, h1 { overflow-wrap: anywhere; }
td { overflow-wrap: break-word; }
@media screen { .price { margin-top: 1.5rem; } }
</style>
)";

}  // namespace

std::string job_html(const JobReport& report, const Sentences& say) {
  const JobContent content = printable_job_content(report, say);
  const auto section = [&](std::string_view title, const std::vector<std::string>& lines) {
    return html_section(say(title), lines);
  };
  std::string body(print_style);
  if (!content.warning.empty())
    body += "<div class=\"out-of-limits\">\n<h1>" + html_text(content.warning) + "</h1>\n</div>\n";
  body += "<div class=\"" + std::string(state_style(report.call.state)) + "\">\n<h1>" + html_text(content.headline) +
          "</h1>\n</div>\n";
  for (const std::string& fact : content.facts) body += "<p>" + html_text(fact) + "</p>\n";
  body += section(OHMWRIGHT_TEXT("What was wrong"), content.wrong);
  body += section(OHMWRIGHT_TEXT("What was done"), content.done);
  body += section(OHMWRIGHT_TEXT("Proof"), content.proof);
  body += section(OHMWRIGHT_TEXT("What to watch"), content.watch);
  body += section(OHMWRIGHT_TEXT("What still stands against it"), content.open_points);
  body +=
      "<div class=\"price\">" +
      html_line_to_fill({say(OHMWRIGHT_TEXT("Price")), say(OHMWRIGHT_TEXT("Date")), say(OHMWRIGHT_TEXT("Signature"))}) +
      "</div>\n";
  body += "<div class=\"shop\">\n<h2>" + html_text(say(OHMWRIGHT_TEXT("For the shop"))) + "</h2>\n";
  body += section(OHMWRIGHT_TEXT("Said on the phone"), content.phone);
  if (content.readings.size() > 1)
    body += "<div class=\"readings\">\n<h2>" + html_text(say(OHMWRIGHT_TEXT("Readings"))) + "</h2>\n" +
            html_stacking_table(content.readings) + "</div>\n";
  body += section(OHMWRIGHT_TEXT("Why, and where the doubt came from"), content.judged);
  body += pictures(say(OHMWRIGHT_TEXT("Readings against what good parts read")), report.plots, PictureFit::shrinks);
  body += fault_bars(say(OHMWRIGHT_TEXT("Possible faults before the first reading")), report.possible_before);
  body += fault_bars(possible_faults_title(report, say), report.possible_now);
  body += pictures(say(OHMWRIGHT_TEXT("The circuit")), report.circuit, PictureFit::scrolls);
  body += section(OHMWRIGHT_TEXT("Parts replaced or mended"), content.replaced);
  body += section(OHMWRIGHT_TEXT("Checked after the repair"), content.checks);
  if (content.log_figures.size() > 1)
    body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("The logs before and after"))) + "</h2>\n" +
            html_table(content.log_figures);
  body += section(OHMWRIGHT_TEXT("Still unproved"), content.unproved);
  body += pictures(say(OHMWRIGHT_TEXT("The log")), report.logs, PictureFit::shrinks);
  body += section(OHMWRIGHT_TEXT("Notes"), content.notes);
  body += section(OHMWRIGHT_TEXT("Cautions that were shown"), content.brief_cautions);
  body += "</div>\n";
  return html_page(content.headline, body, report.made_with);
}

}  // namespace ohmwright
