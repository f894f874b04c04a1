#include <sodium/utils.h>

#include <ohmwright/report/html.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view head = R"(<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<style>
body { max-width: 46rem; margin: 1.5rem auto; padding: 0 1rem; font: 1rem/1.5 sans-serif; color: #222; }
h1 { font-size: 1.4rem; line-height: 1.3; }
h2 { font-size: 1.05rem; margin-bottom: 0.2rem; }
ul { margin-top: 0.2rem; padding-left: 1.3rem; }
img { max-width: 100%; }
.picture { overflow-x: auto; }
@media screen { .picture.scrolls img { max-width: none; } }
table { border-collapse: collapse; }
td, th { padding: 0.15rem 0.8rem; text-align: left; border-bottom: 1px solid #ddd; }
.wide { overflow-x: auto; }
@media screen and (min-width: 50rem) { .wide { width: max-content; max-width: calc(50vw + 22rem); } }
.wide td, .wide th { white-space: nowrap; padding: 0.15rem 0.5rem; }
.wide td:first-child { white-space: normal; }
.stacks td { vertical-align: top; } .stacks td:first-child { min-width: 9rem; }
@media screen and (max-width: 30rem) {
  .stacks tr:first-child { display: none; }
  .stacks tr, .stacks td { display: block; }
  .stacks tr { padding: 0.4rem 0; border-bottom: 1px solid #ddd; }
  .stacks td { padding: 0; border: 0; }
  .stacks td:first-child { font-weight: bold; }
  .stacks td + td::before { content: attr(data-column) ": "; color: #555; }
}
.small-pictures { display: grid; grid-template-columns: repeat(auto-fill, minmax(min(15rem, 100%), 1fr)); gap: 1rem; }
figure { margin: 0; break-inside: avoid; }
figcaption { font-size: 0.9rem; line-height: 1.3; }
.cautions { border-left: 0.3rem solid #b8860b; padding: 0.1rem 0.9rem; background: #fbf6e9; }
footer { margin-top: 1.5rem; font-size: 0.85rem; color: #555; }
.to-fill { display: flex; gap: 2rem; color: #555; }
.to-fill span { flex: 1; border-bottom: 1px solid #999; }
summary { margin-top: 1rem; font-size: 1.05rem; font-weight: bold; cursor: pointer; }
.within-limits h1 { color: #1a6b2f; }
.out-of-limits h1 { color: #a3201a; }
.undecided h1 { color: #7a5c00; }
.bar { display: flex; align-items: center; gap: 0.6rem; margin: 0.15rem 0; }
.bar span:first-child { flex: 0 0 min(12rem, 25vw); height: 0.9rem; background: #e6e6e6; }
.bar i { display: block; height: 100%; background: #466b8f; }
.bar b { flex: 0 0 3rem; text-align: right; font-weight: normal; }
section { break-inside: avoid; }
h2, h3 { break-after: avoid; }
@media print {
  body { margin: 0; font-size: 0.88rem; line-height: 1.28; }
  section img { width: 60%; }
  .wide { overflow-x: visible; font-size: 0.75rem; break-inside: avoid; }
  .wide td, .wide th { white-space: normal; padding: 0.1rem 0.25rem; }
  details::details-content { content-visibility: visible; display: block; }
}
</style>
)";

/// RFC 4648, section 4.
std::string base64(std::string_view bytes) {
  std::string text(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(text.data(), text.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                    sodium_base64_VARIANT_ORIGINAL);
  text.pop_back();  // the terminating nul that it writes
  return text;
}

}  // namespace

std::string html_text(std::string_view text) {
  std::string html;
  for (const char letter : text) {
    switch (letter) {
      case '&':
        html += "&amp;";
        break;
      case '<':
        html += "&lt;";
        break;
      case '>':
        html += "&gt;";
        break;
      case '"':
        html += "&quot;";
        break;
      case '\'':
        html += "&#39;";
        break;
      default:
        if (static_cast<unsigned char>(letter) >= 0x20 && letter != 0x7f) html += letter;
    }
  }
  return html;
}

std::string html_page(std::string_view title, std::string_view body, std::string_view foot) {
  std::string page = "<!DOCTYPE html>\n<html lang=\"" + html_text(language_of_texts()) + "\">\n";
  page.append(head).append("<title>").append(html_text(title)).append("</title>\n</head>\n<body>\n").append(body);
  if (!foot.empty()) page.append("<footer>").append(html_text(foot)).append("</footer>\n");
  return page.append("</body>\n</html>\n");
}

std::string html_section(std::string_view title, const std::vector<std::string>& lines) {
  if (lines.empty()) return {};
  std::string section = "<h2>" + html_text(title) + "</h2>\n<ul>\n";
  for (const std::string& line : lines) section += "<li>" + html_text(line) + "</li>\n";
  return section + "</ul>\n";
}

std::string html_table(const std::vector<std::vector<std::string>>& rows) {
  if (rows.size() < 2) return {};
  std::string table = "<div class=\"wide\"><table>\n";
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const std::string_view tag = r == 0 ? "th" : "td";
    table += "<tr>";
    for (const std::string& cell : rows[r])
      table.append("<").append(tag).append(">").append(html_text(cell)).append("</").append(tag).append(">");
    table += "</tr>\n";
  }
  return table + "</table></div>\n";
}

std::string html_stacking_table(const std::vector<std::vector<std::string>>& rows) {
  if (rows.size() < 2) return {};
  std::string table = "<table class=\"stacks\">\n<tr>";
  for (const std::string& name : rows.front()) table += "<th>" + html_text(name) + "</th>";
  table += "</tr>\n";
  for (std::size_t r = 1; r < rows.size(); ++r) {
    table += "<tr>";
    for (std::size_t c = 0; c < rows[r].size(); ++c)
      table += "<td data-column=\"" + html_text(rows.front().at(c)) + "\">" + html_text(rows[r][c]) + "</td>";
    table += "</tr>\n";
  }
  return table + "</table>\n";
}

std::string html_cautions(std::string_view title, const std::vector<std::string>& brief) {
  if (brief.empty()) return {};
  std::string all;
  for (const std::string& caution : brief) all += caution + ". ";
  return "<div class=\"cautions\">\n<p><strong>" + html_text(title) + ":</strong> " + html_text(all) + "</p>\n</div>\n";
}

std::string html_folded(std::string_view title, const std::vector<std::string>& lines) {
  if (lines.empty()) return {};
  std::string section = "<details>\n<summary>" + html_text(title) + "</summary>\n<ul>\n";
  for (const std::string& line : lines) section += "<li>" + html_text(line) + "</li>\n";
  return section + "</ul>\n</details>\n";
}

std::string html_line_to_fill(const std::vector<std::string>& labels) {
  std::string line = "<p class=\"to-fill\">";
  for (const std::string& label : labels) line += "<span>" + html_text(label) + "</span>";
  return line + "</p>\n";
}

std::string html_picture(std::string_view svg, std::string_view alternative, PictureFit fit) {
  const std::string behaviour = fit == PictureFit::scrolls ? "scrolls" : "shrinks";
  return "<div class=\"picture " + behaviour + "\"><img src=\"data:image/svg+xml;base64," + base64(svg) + "\" alt=\"" +
         html_text(alternative) + "\"></div>\n";
}

std::string html_picture(std::string_view wide, std::string_view narrow, std::string_view alternative) {
  return "<p><picture><source media=\"screen and (max-width: 36rem)\" srcset=\"data:image/svg+xml;base64," +
         base64(narrow) + "\"><img src=\"data:image/svg+xml;base64," + base64(wide) + "\" alt=\"" +
         html_text(alternative) + "\"></picture></p>\n";
}

std::string html_small_pictures(const std::vector<CaptionedPicture>& pictures) {
  if (pictures.empty()) return {};
  std::string all = "<div class=\"small-pictures\">\n";
  for (const CaptionedPicture& picture : pictures)
    all += "<figure><figcaption>" + html_text(picture.caption) + "</figcaption><img src=\"data:image/svg+xml;base64," +
           base64(picture.svg) + "\" alt=\"" + html_text(picture.alternative) + "\"></figure>\n";
  return all + "</div>\n";
}

}  // namespace ohmwright
