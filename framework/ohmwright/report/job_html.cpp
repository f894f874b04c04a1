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
  for (const JobPicture& picture : all) html += html_picture(picture.svg, picture.alternative, fit);
  return html + "</section>\n";
}

std::string_view state_style(std::string_view state) {
  if (state == job::is_repaired) return "within-limits";
  return state == job::is_stopped ? "out-of-limits" : "undecided";
}

/// A page that fills two sheets: letters and pictures shrink in print, the shop's part begins the second sheet.
constexpr std::string_view print_style = R"(<style>
@media print {
  body { font-size: 0.72rem; line-height: 1.3; max-width: none; }
  h1 { font-size: 1.1rem; } h2 { font-size: 0.95rem; } h3 { font-size: 0.85rem; }
  h2, h3, p, ul { margin: 0.15rem 0; }
  .shop { break-before: page; columns: 2; column-gap: 1rem; font-size: 0.52rem; line-height: 1.2; }
  .shop img { max-height: 4.5cm; width: auto; max-width: 100%; }
  .shop .wide, .shop table { font-size: 0.48rem; }
  .shop h2 { font-size: 0.7rem; } .shop h3 { font-size: 0.6rem; }
  .bar { margin: 0; } .bar span:first-child { flex-basis: 4rem; height: 0.5rem; }
  @page { margin: 1.2cm; }
}
p, li, h1 { overflow-wrap: anywhere; }
td { overflow-wrap: break-word; }
.price { margin-top: 1.5rem; }
</style>
)";

}  // namespace

std::string job_html(const JobReport& report, const Sentences& say) {
  const JobContent content = printable_job_content(report, say);
  const auto section = [&](std::string_view title, const std::vector<std::string>& lines) {
    return html_section(say(title), lines);
  };
  std::string body(print_style);
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
    body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Readings"))) + "</h2>\n" + html_table(content.readings);
  body += section(OHMWRIGHT_TEXT("Why, and where the doubt came from"), content.judged);
  body += pictures(say(OHMWRIGHT_TEXT("Readings against what good parts read")), report.plots, PictureFit::shrinks);
  body += fault_bars(say(OHMWRIGHT_TEXT("Possible faults before the first reading")), report.possible_before);
  body += fault_bars(say(OHMWRIGHT_TEXT("Possible faults now")), report.possible_now);
  body += pictures(say(OHMWRIGHT_TEXT("The circuit")), report.circuit, PictureFit::scrolls);
  body += section(OHMWRIGHT_TEXT("Parts replaced"), content.replaced);
  body += section(OHMWRIGHT_TEXT("Checked after the repair"), content.checks);
  if (content.log_figures.size() > 1)
    body += "<h2>" + html_text(say(OHMWRIGHT_TEXT("The logs before and after"))) + "</h2>\n" +
            html_table(content.log_figures);
  body += pictures(say(OHMWRIGHT_TEXT("The log")), report.logs, PictureFit::shrinks);
  body += section(OHMWRIGHT_TEXT("Notes"), content.notes);
  body += section(OHMWRIGHT_TEXT("Cautions that were shown"), content.cautions);
  body += "</div>\n";
  return html_page(content.headline, body, report.made_with);
}

}  // namespace ohmwright
