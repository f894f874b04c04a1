#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/appliance_report.hpp>
#include <ohmwright/report/html.hpp>
#include <ohmwright/report/page_layout.hpp>

namespace ohmwright {

std::string appliance_page(const Appliance& appliance, const Sentences& say, const PageStyle& style) {
  const ApplianceContent content = appliance_content(appliance, say);
  PageLayout page(style);
  page.block(content.headline);
  for (const std::string& line : content.introduction) page.block(line, "  ");
  for (const ApplianceSection& section : content.sections) {
    page.blank_line();
    page.coloured(section.title, "\033[1m");  // a heading that may be longer than a line
    for (const std::string& line : section.lines) page.item(line);
  }
  return page.take();
}

std::string appliance_html(const Appliance& appliance, const Sentences& say, std::string_view drawing,
                           std::string_view made_with) {
  const ApplianceContent content = appliance_content(appliance, say);
  std::string body = "<h1>" + html_text(content.headline) + "</h1>\n";
  for (const std::string& line : content.introduction) body += "<p>" + html_text(line) + "</p>\n";
  if (!drawing.empty()) body += html_picture(drawing, say(OHMWRIGHT_TEXT("The circuit with its test points")));
  for (const ApplianceSection& section : content.sections) body += html_section(section.title, section.lines);
  return html_page(content.headline, body, made_with);
}

}  // namespace ohmwright
