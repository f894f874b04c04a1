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
  std::string html = "<section class=\"faults\">\n<h3>" + html_text(title) + "</h3>\n";
  for (const PossibleFaultLine& row : rows) html += fault_bar(row);
  return html + "</section>\n";
}

/// Beside each other in print, each with what it shows below it where there are several.
std::string pictures(const std::string& title, const std::vector<JobPicture>& all, std::string_view style) {
  if (all.empty()) return {};
  std::string html =
      "<section class=\"" + std::string(style) + "\">\n<h3>" + html_text(title) + "</h3>\n<div class=\"plates\">\n";
  for (const JobPicture& picture : all) {
    html += "<div class=\"plate\">\n" + html_picture(picture.svg, picture.alternative, PictureFit::shrinks);
    if (all.size() > 1) html += "<p>" + html_text(picture.alternative) + "</p>\n";
    html += "</div>\n";
  }
  return html + "</div>\n</section>\n";
}

std::string_view state_style(job::JobState state) {
  if (state == job::JobState::repaired) return "within-limits";
  return state == job::JobState::stopped ? "out-of-limits" : "undecided";
}

/// The circuit, and beside it, where the page is wide, what its numbers stand for.
std::string circuit_plate(const JobReport& report, const Sentences& say) {
  if (report.circuit.empty()) return {};
  std::string html = "<section class=\"circuit\">\n<h3>" + html_text(say(OHMWRIGHT_TEXT("The circuit"))) +
                     "</h3>\n<div class=\"beside\">\n";
  for (const JobPicture& picture : report.circuit)
    html += html_picture(picture.svg, picture.alternative, PictureFit::scrolls);
  html += "<div>\n<h3>" + html_text(say(OHMWRIGHT_TEXT("Test points"))) + "</h3>\n";
  for (const std::string& point : report.test_points) html += "<p>" + html_text(point) + "</p>\n";
  return html + "</div>\n</div>\n</section>\n";
}

/// A page that fills two sheets of A4 or Letter in print: no letter of its text is smaller than 8 points, and the
/// shop's part begins where the customer's ends. Of possible faults paper has the first five.
constexpr std::string_view print_style = R"(<style>
.circuit .beside { display: flex; flex-wrap: wrap; gap: 1rem; }
.circuit .beside p { margin: 0.1rem 0; }
@media print {
  body { font-size: 9pt; line-height: 1.25; max-width: none; }
  h1 { font-size: 13pt; } h2 { font-size: 10.5pt; } h3 { font-size: 9.5pt; }
  h2, h3, p, ul { margin: 0.1rem 0; } ul { padding-left: 1rem; }
  .shop { font-size: 8pt; line-height: 1.15; border-top: 1pt solid #555; }
  .shop p, .shop ul, .shop h2, .shop h3 { margin: 0.05rem 0; }
  .shop .wide, .shop table { font-size: 8pt; }
  .shop h2 { font-size: 9.5pt; } .shop h3 { font-size: 8.5pt; }
  .shop section { break-inside: auto; } .shop .picture, .shop .plate, .shop .bar { break-inside: avoid; }
  .shop img { width: auto; max-width: 100%; }
  .columns { columns: 2; column-gap: 0.8rem; }
  .shop .stacks { width: 100%; }
  .shop .stacks td, .shop .stacks th { padding: 0.02rem 0.3rem; }
  .shop .stacks td:nth-child(2), .shop .stacks td:nth-child(5) { white-space: nowrap; }
  .shop .plates { display: flex; gap: 0.5rem; align-items: flex-start; }
  .shop .plates > * { flex: 1 1 0; } .shop .plates img { max-height: 4.8cm; }
  .shop .circuit { break-inside: avoid; }
  .shop .circuit .beside { flex-wrap: nowrap; } .shop .picture { overflow: visible; } .shop .circuit img { max-height: 11cm; max-width: 11cm; }
  .dense .plates img { max-height: 3.2cm; } .dense .circuit img { max-height: 5.5cm; } .dense .circuit p { margin: 0; }
  .shop .faults .bar:nth-of-type(n + 6) { display: none; }
  .shop .log img { width: 100%; }
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

/// All figures, and where the doubt came from: what a customer need not read.
std::string shop_part(const JobReport& report, const JobContent& content, const Sentences& say) {
  const auto section = [&](std::string_view title, const std::vector<std::string>& lines) {
    return html_section(say(title), lines);
  };
  constexpr std::size_t many = 6;  // readings, whose figures leave the pictures less room on paper
  const bool is_dense = report.call.readings.size() > many;
  std::string html = std::string("<div class=\"shop") + (is_dense ? " dense" : "") + "\">\n<h2>" +
                     html_text(say(OHMWRIGHT_TEXT("For the shop"))) + "</h2>\n";
  html += section(OHMWRIGHT_TEXT("Said on the phone"), content.phone);
  if (content.readings.size() > 1)
    html += "<h2>" + html_text(say(OHMWRIGHT_TEXT("Readings"))) + "</h2>\n" + html_stacking_table(content.readings);
  html += pictures(say(OHMWRIGHT_TEXT("Readings against what good parts read")), report.plots, "charts");
  html += "<div class=\"columns\">\n";
  html += section(OHMWRIGHT_TEXT("Why, and where the doubt came from"), content.judged);
  html += fault_bars(say(OHMWRIGHT_TEXT("Possible faults before the first reading")), report.possible_before);
  html += fault_bars(possible_faults_title(report, say), report.possible_now);
  html += section(OHMWRIGHT_TEXT("Parts replaced or mended"), content.replaced);
  html += section(OHMWRIGHT_TEXT("Checked after the repair"), content.checks);
  html += section(OHMWRIGHT_TEXT("Still unproved"), content.unproved);
  html += section(OHMWRIGHT_TEXT("Notes"), content.notes);
  html += section(OHMWRIGHT_TEXT("Cautions that were shown"), content.brief_cautions);
  html += "</div>\n";
  if (content.log_figures.size() > 1)
    html += "<h2>" + html_text(say(OHMWRIGHT_TEXT("The logs before and after"))) + "</h2>\n" +
            html_table(content.log_figures);
  html += pictures(say(OHMWRIGHT_TEXT("The log")), report.logs, "log");
  html += circuit_plate(report, say);
  return html + "</div>\n";
}

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
  body += shop_part(report, content, say);
  return html_page(content.headline, body, report.made_with);
}

}  // namespace ohmwright
