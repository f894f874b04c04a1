#include <cstdlib>

#include <ohmwright/course/paper_page.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/html.hpp>

namespace ohmwright::course {

namespace {

/// On paper nothing loads, and no colour is needed. A drawing keeps inside what A4 and Letter both leave within their
/// margins: 180 by 249 mm upright, 249 by 180 mm across, less its title.
constexpr std::string_view paper_style = R"(
@page { margin: 15mm; }
body { font: 11pt/1.4 serif; color: #000; background: #fff; max-width: 180mm; margin: 0 auto; padding: 1rem; }
body.large { font-size: 16pt; }
h1 { font-size: 1.4em; } h2 { font-size: 1.1em; break-after: avoid; }
h2 + table thead { break-after: avoid; } .question, .together { break-inside: avoid; }
table { border-collapse: collapse; width: 100%; } tr { break-inside: avoid; } thead { display: table-header-group; }
td, th { border: 1px solid #000; padding: 0.3em 0.4em; text-align: left; vertical-align: top; }
td.blank { min-width: 4em; height: 1.4em; } .cautions { border: 2px solid #000; padding: 0 0.8em; break-inside: avoid; }
img { filter: grayscale(1); } .line { border-bottom: 1px solid #000; height: 1.8em; }
ol, ul { margin: 0.3em 0; padding-left: 2em; } .columns { columns: 2; column-gap: 1.5em; padding-left: 0; } .columns li { break-inside: avoid; margin-left: 2.2em; }
body.large .cautions { break-inside: auto; } body.large .columns { columns: 1; } body:not(.large) .asks ul { columns: 2; column-gap: 2em; }
.slip { border: 1px dashed #000; margin: 0 0 0.8em; break-inside: avoid; display: grid; grid-template-rows: 1fr auto 1fr auto; }
.cover { min-height: 2em; background: repeating-linear-gradient(45deg, #000 0 0.4mm, #fff 0.4mm 1.6mm);
  -webkit-print-color-adjust: exact; print-color-adjust: exact; }
.fold { border-top: 1px dotted #000; padding: 0.2em 0.6em; font-size: 0.8em; text-align: center; }
.inside { padding: 0 0.6em 0.3em; } .inside :is(td, th) { padding: 0.1em 0.4em; } .inside :is(td, th):not(:first-child) { white-space: nowrap; } .strip { border-top: 1px solid #000; padding: 0.3em 0.6em; }
.to-fill { display: flex; gap: 2rem; } .to-fill span { flex: 1; border-bottom: 1px solid #000; }
.circuit { break-inside: avoid; break-before: page; break-after: page; text-align: center; }
.circuit img { width: auto; height: auto; max-width: 100%; max-height: 235mm; }
@page across { size: landscape; } .across { page: across; } .across img { max-height: 160mm; }
@media print { body { padding: 0; max-width: none; } }
)";

/// The number of points behind `name` in the head of an SVG: width="312pt".
double points_of(std::string_view drawing, std::string_view name) {
  const std::size_t head = drawing.find("<svg");
  const std::size_t at = drawing.find(name, head == std::string_view::npos ? 0 : head);
  return at == std::string_view::npos ? 0.0 : std::atof(std::string(drawing.substr(at + name.size(), 16)).c_str());
}

}  // namespace

std::string paper_page(std::string_view title, std::string_view body, const WorksheetStyle& style) {
  std::string page = "<!DOCTYPE html>\n<html lang=\"" + html_text(language_of_texts()) +
                     "\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
                     "content=\"width=device-width, initial-scale=1\">\n<meta http-equiv=\"Content-Security-Policy\" "
                     "content=\"default-src 'none'; style-src 'unsafe-inline'; img-src data:\">\n<title>";
  page.append(html_text(title)).append("</title>\n<style>").append(paper_style).append("</style>\n</head>\n<body");
  page.append(style.large ? " class=\"large\">\n" : ">\n").append(body);
  return page.append("</body>\n</html>\n");
}

std::string circuit_on_a_page(std::string_view drawing, const Sentences& say) {
  const bool lies_across = points_of(drawing, "width=\"") > points_of(drawing, "height=\"");
  return std::string("<div class=\"circuit") + (lies_across ? " across" : "") + "\">" +
         html_picture(drawing, say(OHMWRIGHT_TEXT("the circuit with its test points")), PictureFit::shrinks) +
         "</div>\n";
}

}  // namespace ohmwright::course
