#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/chart_scale.hpp>
#include <ohmwright/report/html.hpp>

namespace ohmwright {

namespace {

std::string table_row(std::string_view cell, const std::vector<std::string>& texts) {
  std::string row = "<tr>";
  for (const std::string& text : texts)
    row.append("<").append(cell).append(">").append(html_text(text)).append("</").append(cell).append(">");
  return row + "</tr>\n";
}

std::vector<std::string> cells_of(const Chart& chart, const ChartPoint& point, const Sentences& say) {
  const Dimension condition =
      chart.descriptor.conditions[index_of(chart.descriptor.conditions, chart.axis.condition)].dimension;
  const std::string at = say.quantity({condition, point.condition});
  if (!point.expected) return {at, "–", "–", "–"};
  if (point.expected->share_closed) return {at, percent_text(*point.expected->share_closed)};
  const auto limit = [&](const std::optional<AnyQuantity>& side) { return side ? say.quantity(*side) : "–"; };
  return {at, (is_past_the_span(point) ? "~" : "") + say.quantity(point.expected->nominal),
          limit(point.expected->limits.lower), limit(point.expected->limits.upper)};
}

std::string table_of(const Chart& chart, const ChartLine& line, const Sentences& say) {
  std::string table = line.state.empty() ? "" : "<h2>" + html_text(state_title(chart, line, say)) + "</h2>\n";
  table += "<table>\n";
  if (is_of_contacts(chart))
    table += table_row("th", {say(OHMWRIGHT_TEXT("at")), say(OHMWRIGHT_TEXT("closed"))});
  else
    table += table_row("th", {say(OHMWRIGHT_TEXT("at")), say(OHMWRIGHT_TEXT("reads")), say(OHMWRIGHT_TEXT("from")),
                              say(OHMWRIGHT_TEXT("to"))});
  for (const ChartPoint& point : line.points) table += table_row("td", cells_of(chart, point, say));
  return table + "</table>\n";
}

}  // namespace

std::string chart_html(const Chart& chart, const Chart& dense, const Sentences& say, std::string_view made_with) {
  const std::string kind = say.in_domain(chart.descriptor.text_domain, chart.descriptor.title);
  const std::string title =
      say(OHMWRIGHT_TEXT("{kind}, {part}: what a good one reads"), {{"kind", kind}, {"part", chart.part_title}});
  std::string body = "<h1>" + html_text(title) + "</h1>\n";
  if (const std::optional<std::string> picture = chart_picture(dense, say))
    body += html_picture(*picture, title, PictureFit::shrinks);
  else
    body += "<p>" + html_text(say(OHMWRIGHT_TEXT("No picture: gnuplot is not installed. The table says the same."))) +
            "</p>\n";
  for (const ChartLine& line : chart.lines) body += table_of(chart, line, say);
  if (const std::string remark = remark_on_span(chart, say); !remark.empty())
    body += "<p>" + html_text(remark) + "</p>\n";
  return html_page(title, body, made_with);
}

}  // namespace ohmwright
