#include <algorithm>

#include <ohmwright/report/gnuplot_script.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright {

std::string quoted_for_gnuplot(std::string_view text) {
  std::string quoted = "'";
  for (const char letter : with_plain_spaces(text)) {
    if (static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f) continue;
    quoted += letter;
    if (letter == '\'') quoted += letter;
  }
  return quoted + "'";
}

std::string wrapped_for_gnuplot(std::string_view text, int width) {
  std::string expression;
  for (const std::string& line : lines_of_width(text, width))
    expression += (expression.empty() ? "" : ".\"\\n\".") + quoted_for_gnuplot(line);
  return expression.empty() ? quoted_for_gnuplot("") : expression;
}

std::vector<std::string> lines_of_width(std::string_view text, int width) {
  std::vector<std::string> lines;
  const std::string laid_out = paragraph(text, width);
  for (std::size_t begin = 0; begin < laid_out.size();) {
    const std::size_t end = std::min(laid_out.find('\n', begin), laid_out.size());
    lines.push_back(laid_out.substr(begin, end - begin));
    begin = end + 1;
  }
  return lines;
}

}  // namespace ohmwright
